/** Asks the questions of a new workbook in the editor's own boxes, in its language. */
import { l10n } from 'vscode';
import { QUESTIONS, type Answers, type Question, type Words } from '../../create/index.ts';
import { choose, write, type Reply, type Place } from './question.ts';

/** The question with its answer; undefined: the user cancelled. */
export async function ask(
  question: Question,
  answers: Partial<Answers>,
  place: Place,
): Promise<Reply<Partial<Answers>>> {
  const words = translated(question.words(answers));
  const reply = question.choices
    ? await choose(
        place,
        words,
        question.choices.map(({ word, label, detail }) => ({
          label: translated([label]),
          ...(detail !== undefined && { detail: translated([detail]) }),
          value: word,
        })),
      )
    : await write(place, words, question.typed?.(answers) ?? '', (text) =>
        question.read(text, answers) ? undefined : translated(question.fault(answers)),
      );
  return typeof reply === 'string' ? question.read(reply, answers) : reply;
}

/** The questions that these answers lead to. */
export function asked(answers: Partial<Answers>): readonly Question[] {
  return QUESTIONS.filter((question) => question.isAsked?.(answers) !== false);
}

function translated([words, ...others]: Words): string {
  return l10n.t(words, ...others);
}
