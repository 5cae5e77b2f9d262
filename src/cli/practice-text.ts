/** A burnt tape in letters, the comparison after it was read, and the closing sheet, for a terminal. */
import { asksInWords, LEVEL_NAMES, unitsOf, type Book, type ComparedMark } from '../language/index.ts';
import {
  harmless,
  lengthsIn,
  type Axes,
  type BurnFigure,
  type ClosingSheet,
  type Simulation,
  type StationReport,
} from '../model/index.ts';
import { markInWords } from '../words/index.ts';
import { wrapped } from './wrap.ts';

/** The first line of everything that is printed of a simulated machine. */
export function practiceHead({ seed, level }: Simulation): string {
  return `PRACTICE: simulated machine, level ${level}, ${LEVEL_NAMES[level - 1] ?? 'unknown'}, seed ${seed}. Nothing here is real.`;
}

/** Instead of the next step. */
export function adviceIsClosed(asks: number): string {
  return [
    `The advice is closed: choose the step yourself. ${asksInWords(asks)}`,
    'To ask, append the cell `note: Asked for advice.` and run this again.',
    '',
  ].join('\n');
}

/** mm: a letter is twice as high as wide. */
const ROW = 0.5;
const COLUMN = 0.25;
/** mm from the middle of the window to its edge, and the steps in which the window follows a burn. */
const REACH = 9;
const STEP = 5;

/** A tape as letters: ring, axes with a tick each millimetre, and the burn from `.` (soot) to `#` (charred). */
export function tapeText(figure: BurnFigure): string {
  const { station, place, frame, burnt } = figure;
  const title = `TAPE ${station}${place === '' ? '' : `, ${place}`}`;
  if (!burnt) return `${harmless(title)}\nNo mark on this tape: the beam missed it. Write \`none\`.\n`;
  const middle = windowOf(burnt.core);
  const rows = range(REACH / ROW).map((k) => middle.up - k * ROW);
  const columns = range(REACH / COLUMN).map((k) => middle.right + k * COLUMN);
  const letters = lettersOf(figure);
  const lines = rows.map((up) => {
    const label = up % STEP === 0 ? String(up).padStart(3) : '   ';
    return `${label} ${columns.map((right) => letters({ right, up })).join('')}`.trimEnd();
  });
  const scale = columns.map((right) => (right % STEP === 0 ? right : undefined));
  return [
    harmless(title),
    `looking along the beam at the burnt side; up is machine ${frame.up}, right is machine ${frame.right}`,
    'one row 0.5 mm, one letter 0.25 mm; the middle of the # is the mark',
    '',
    ...lines,
    `    ${numbersUnder(scale)}`,
    '',
  ].join('\n');
}

/** −n … n */
function range(n: number): number[] {
  return Array.from({ length: 2 * n + 1 }, (_, k) => k - n);
}

function windowOf(core: readonly Axes[]): Axes {
  const middle = (axis: keyof Axes) => core.reduce((sum, point) => sum + point[axis], 0) / core.length;
  // The axes stay in view where they can.
  const follow = (at: number) => (Math.abs(at) < REACH - 2 ? 0 : Math.sign(at) * STEP);
  return { right: follow(middle('right')), up: follow(middle('up')) };
}

function lettersOf({ aperture, burnt }: BurnFigure): (point: Axes) => string {
  const layers = burnt
    ? ([
        ['#', [burnt.core]],
        ['%', [burnt.brown]],
        [':', [burnt.scorch]],
        ['.', burnt.smoke],
      ] as const)
    : [];
  return (point) => {
    const burn = layers.find(([, outlines]) => outlines.some((outline) => isInside(outline, point)))?.[0];
    const { right, up } = point;
    if (burn === '#' || burn === '%') return burn;
    if (right === 0 && up === 0) return '+';
    if (up === 0) return Number.isInteger(right) ? (right % STEP === 0 ? '|' : "'") : '-';
    if (right === 0) return Number.isInteger(up) ? (up % STEP === 0 ? '+' : '-') : '|';
    if (burn !== undefined) return burn;
    const isRing = aperture !== undefined && Math.abs(Math.hypot(right, up) - aperture / 2) < COLUMN;
    return isRing ? 'o' : ' ';
  };
}

/** Even-odd rule. */
function isInside(outline: readonly Axes[], { right, up }: Axes): boolean {
  let inside = false;
  for (const [k, a] of outline.entries()) {
    const b = outline[(k + 1) % outline.length]!;
    if (a.up > up !== b.up > up && right < ((b.right - a.right) * (up - a.up)) / (b.up - a.up) + a.right)
      inside = !inside;
  }
  return inside;
}

function numbersUnder(scale: readonly (number | undefined)[]): string {
  const line = scale.map(() => ' ');
  for (const [k, number] of scale.entries()) {
    if (number === undefined) continue;
    for (const [at, letter] of [...String(number)].entries()) if (k + at < line.length) line[k + at] = letter;
  }
  return line.join('').trimEnd();
}

/** Expected, read, came: one line for each, mark by mark. */
export function comparedText(book: Book, marks: readonly ComparedMark[]): string {
  const { stations } = book.evaluation();
  const { read: length } = lengthsIn(unitsOf(book.evaluation()));
  return marks
    .map(({ station, place, expected, read, came, misread, surprise }) => {
      const frame = stations.find(({ name }) => name === station)!.frame;
      return [
        harmless(`${station}${place === '' ? '' : `, ${place}`}`),
        `  expected  ${expected ? markIn(expected, frame) : 'not written (x-expected)'}`,
        `  read      ${markIn(read, frame)}`,
        `  came      ${markIn(came, frame)}`,
        `  reading   ${length(misread)} off`,
        ...(surprise === undefined ? [] : [`  expecting ${length(surprise)} off`]),
        '',
      ].join('\n');
    })
    .join('\n');
}

function markIn({ right, up }: Axes, frame: StationReport['frame']): string {
  return markInWords(right, up, frame);
}

/** The closing sheet; the two ways as bars. */
export function closingText({ title, why, rows, yours, shortest, costly, take }: ClosingSheet): string {
  const row = (name: string, own: string, other: string) =>
    `  ${name.padEnd(26)}${own.padStart(8)}${other.padStart(10)}`;
  return [
    title.toUpperCase(),
    ...wrapped(why, '  '),
    '',
    row('', 'yours', 'shortest'),
    ...rows.map((one) => row(one.name, one.yours, one.shortest)),
    '',
    'WORST LIMIT BY TAPES SHOT  (1 = just within)',
    ...wayLines('yours', yours),
    ...wayLines('shortest', shortest),
    ...(costly ? ['', `The costly moment: ${costly.say}, after ${costly.tapes} tapes.`] : []),
    '',
    ...take.flatMap((one) => wrapped(one, '')),
    '',
  ].join('\n');
}

const BAR = 40;
/** Beyond this many limits a bar is cut. */
const MOST = 8;

function wayLines(name: string, points: ClosingSheet['yours']): string[] {
  return points.map(({ tapes, worst }, k) => {
    const length = Math.max(1, Math.round((Math.min(MOST, worst) / MOST) * BAR));
    const bar = `${'='.repeat(length)}${worst > MOST ? '>' : ''}`;
    return `  ${(k === 0 ? name : '').padEnd(9)}${String(tapes).padStart(4)}  ${bar} ${Number.isFinite(worst) ? worst.toFixed(1) : 'beam lost'}`;
  });
}
