/** Asks for the blank marks of the last cell, and shows how each is read. */
import {
  adviceNow,
  blankMarks,
  filledIn,
  frameInWords,
  readBack,
  typedMark,
  type BlankMark,
} from '../language/index.ts';
import { isVertical, type Path, type Step } from '../model/index.ts';
import type { Adding } from './adding.ts';

export interface MarksTyped {
  /** The workbook with the marks. */
  readonly text: string;
  readonly count: number;
  readonly problem?: string;
}

/** The word that takes a mark back. */
const BACK = '<';

const UNCLEAR = { problem: '`r` may be right or rear here: ri or re.' };

/** Until all are read, or nobody answers. */
export async function readMarks(adding: Adding): Promise<MarksTyped> {
  const { book, dialogue, options, show } = adding;
  const { report, blanks } = blankMarks(book)!;
  const isUpright = isVertical(report.frame.runs);
  const unit = report.frame.units === 'mm' ? 'mm' : 'inches';
  const form = isUpright ? 'right or left, front or rear, such as 2ri 4re' : 'right or left, up or down, such as 2r 4d';
  show(`${report.name}: look along the beam at the burnt side. ${frameInWords(report.frame)}`);
  show(`In ${unit}, ${form}; c for the centre, n for none; ${BACK} goes back.`);
  const marks = new Map<Path, string>();
  for (let k = 0; k < blanks.length; ) {
    const blank = blanks[k]!;
    const given = givenFor(options.marks, blank, k);
    const typed = given ?? (await dialogue.ask(`${k + 1} ${blank.label || report.name}: `));
    if (typed === undefined) break;
    if (typed.trim() === BACK) {
      k = Math.max(0, k - 1);
      continue;
    }
    const mark = typedMark(typed, isUpright);
    const read = / r\b/.test(mark) ? UNCLEAR : readBack(book, blank.path, mark);
    if ('problem' in read) {
      if (given !== undefined)
        return { text: book.text, count: 0, problem: `--mark ${k + 1}: ${read.problem} Nothing was added.` };
      show(read.problem, '  ? ');
      continue;
    }
    show(read.words, '  = ');
    for (const odd of read.odd) show(odd, '  ! ');
    marks.set(blank.path, mark);
    k += 1;
    if (k === blanks.length && (await isRefused(adding))) k = 0;
  }
  return { text: filledIn(book, marks), count: marks.size };
}

/** Only a person can mistype: a script has no further line. */
async function isRefused({ dialogue, options }: Adding): Promise<boolean> {
  if (!dialogue.isTerminal || options.yes) return false;
  return /^n/i.test((await dialogue.ask('Log these marks [Y/n]: ')) ?? '');
}

/** An option names a tape by its number or by its stop. */
function givenFor(marks: ReadonlyMap<string, string>, { at }: BlankMark, k: number): string | undefined {
  return marks.get(String(k + 1)) ?? marks.get(at);
}

/** An option for a tape that the step has not. */
export function unknownMark({ book, options }: Adding): string | undefined {
  const shot = adviceNow(book).steps.find((step) => step.kind === 'shoot');
  const places = blankMarks(book)?.blanks.map(({ at }) => at) ?? shot?.shots.map(({ at }) => String(at)) ?? [];
  const unknown = [...options.marks.keys()].find((key) => !places.some((at, k) => key === at || key === String(k + 1)));
  return unknown === undefined
    ? undefined
    : `There is no tape \`${unknown}\` to be read now${places.length === 0 ? '' : `: ${places.map((at, k) => `${k + 1} ${at}`).join(', ')}`}.`;
}

/** A length with or without its unit. */
const LENGTH = /^\d[\d./ ]*(?:mm|in)?$/;

/** The cell of a shot with the heights that were measured: those of the advice are suggestions. */
export async function withHeights(
  { dialogue, options }: Adding,
  { cell = '', shots }: Extract<Step, { kind: 'shoot' }>,
): Promise<string> {
  const lines = cell.split('\n');
  const first = lines.findIndex((line) => line.startsWith('  - '));
  for (const [k, { height, at }] of shots.entries()) {
    const line = lines[first + k] ?? '';
    const [, advised] = /\bheight: ([^,}]+)/.exec(line) ?? [];
    const isGiven = options.yes || options.marks.has(String(k + 1)) || options.marks.has(String(at));
    if (height === undefined || advised === undefined || isGiven) continue;
    const typed = await heightOf(`Height of tape ${k + 1} below [${advised}]: `, dialogue);
    if (typed !== '') lines[first + k] = line.replace(`height: ${advised}`, `height: ${typed}`);
  }
  return lines.join('\n');
}

/** Empty: as advised. */
async function heightOf(prompt: string, { ask }: Adding['dialogue']): Promise<string> {
  for (;;) {
    const typed = ((await ask(prompt)) ?? '').trim();
    if (typed === '' || LENGTH.test(typed)) return typed;
  }
}
