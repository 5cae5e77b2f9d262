/** Asks what a machine is like, and creates its workbook. Every answer can be an option. */
import { basename } from 'node:path';
import { QUESTIONS, readName, workbookText, type Answers, type Question, type Words } from '../create/index.ts';
import { harmless } from '../model/index.ts';
import type { NewOptions } from './arguments.ts';
import type { Conversation } from './conversation.ts';
import { textWidth, type Exit } from './terminal.ts';
import { wrapped } from './wrap.ts';

const EXTENSION = '.alignbook.yaml';

export async function createWorkbook(options: NewOptions, conversation: Conversation): Promise<Exit> {
  const { terminal, files, today } = conversation;
  const file = /\.ya?ml$/i.test(options.file) ? options.file : `${options.file}${EXTENSION}`;
  if (files.exists(file)) return refused(conversation, `${harmless(file)} is there already. Nothing was written.`);
  const answers = await answersTo(options, file, conversation);
  if (typeof answers === 'string') return refused(conversation, `${answers} Nothing was written.`);
  const problem = files.create(file, workbookText(answers, today()));
  if (problem !== undefined) return refused(conversation, problem);
  terminal.out(`${terminal.paint('bold', `Created ${harmless(file)}.`)}\n`);
  for (const line of wrapped(
    `Measure what it calls a guess. Then: alignbook add ${harmless(file)}`,
    '',
    textWidth(terminal),
  ))
    terminal.out(`${line}\n`);
  return 0;
}

function refused({ terminal }: Conversation, reason: string): Exit {
  terminal.error(`alignbook: ${reason}\n`);
  return 2;
}

/** The answers, or why there are none: every option is read before anything is asked. */
async function answersTo({ given }: NewOptions, file: string, conversation: Conversation): Promise<Answers | string> {
  let answers: Partial<Answers> = {};
  let open: readonly Question[] = [];
  for (const question of QUESTIONS) {
    const typed = given[question.name];
    if (typed === undefined) {
      open = [...open, question];
      continue;
    }
    const read = question.read(typed, answers);
    if (!read) return `\`--${question.name} ${harmless(typed)}\`: ${inWords(question.fault(answers))}`;
    answers = { ...answers, ...read };
  }
  const needless = QUESTIONS.find(
    ({ name, isAsked }) => given[name] !== undefined && isAsked?.(answers) === false && answers.screws !== undefined,
  );
  if (needless) return `\`--${needless.name}\` is for mounts with three screws.`;
  for (const question of open) {
    if (question.isAsked?.(answers) === false) continue;
    const read = await answerTo(question, answers, file, conversation);
    if (!read) return `No answer: \`--${question.name}\` is missing.`;
    answers = { ...answers, ...read };
  }
  return answers as Answers;
}

/** Asks until the answer can be read; undefined: nobody answers. */
async function answerTo(
  question: Question,
  answers: Partial<Answers>,
  file: string,
  { terminal, dialogue }: Conversation,
): Promise<Partial<Answers> | undefined> {
  const { name, choices = [] } = question;
  const width = textWidth(terminal);
  const suggested = name === 'name' ? readName(basename(file).replace(/(\.alignbook)?\.ya?ml$/i, '')) : undefined;
  const lines = [
    ...wrapped(inWords(question.words(answers)), '', width),
    ...choices.flatMap(({ word, label, detail }) =>
      wrapped(`${label}${detail === undefined ? '' : ` (${detail})`}`, `  ${word.padEnd(WORD)} `, width),
    ),
  ];
  terminal.out(`${lines.join('\n')}\n`);
  for (;;) {
    const typed = await dialogue.ask(suggested ? `${name} [${suggested.title ?? suggested.name}]: ` : `${name}: `);
    if ((typed ?? '').trim() === '' && suggested) return { title: undefined, ...suggested };
    if (typed === undefined) return undefined;
    const read = question.read(typed, answers);
    if (read) return read;
    terminal.out(`  ${inWords(question.fault(answers))}\n`);
  }
}

/** The width of a choice's word. */
const WORD = 12;

function inWords([text, ...others]: Words): string {
  return text.replaceAll(/\{(\d)\}/g, (_, k: string) => others[Number(k)] ?? '');
}
