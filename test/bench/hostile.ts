/**
 * Hostile texts, each compared with a plain text of the same length that takes the same path, in one process. Prints
 * the greatest ratio of each kind.
 */
import { splitCells } from '../../src/cells/index.ts';
import { createBook, expressions, hintsOf, threads } from '../../src/language/index.ts';
import { createReader } from '../../src/workbook/index.ts';
import { HOSTILE_LINES } from '../cells/hostile.ts';
import { CHAIN, HOSTILE_SUMS } from '../language/hostile-sums.ts';
import { HOSTILE_CELLS, repeated } from '../workbook/hostile.ts';
import { MACHINE } from '../workbook/sample.ts';
import { median } from './median.ts';

const ROUNDS = 5;
const plain = (length: number) => repeated('The gantry ran freely; its belts were tight.\n  ', length);

/** For a text in a workspace: every request of an editor. */
function shown(text: string): void {
  const book = createBook({ threads, expressions }, 'bench.alignbook.yaml', new Map(), text);
  book.advance(() => false);
  book.findings();
  hintsOf(book, 0, text.length);
}
const read = (text: string) =>
  createReader({ threads, expressions }).read(text, { file: 'bench.alignbook.yaml', files: new Map() });
const note = (length: number) => `${MACHINE}---\nnote: |\n  ${plain(length)}\n`;
const sum = (line: string) => `${MACHINE}---\nwork: w\na: ${JSON.stringify(line)}\n`;

const KINDS: readonly [
  name: string,
  work: (text: string) => void,
  texts: readonly string[],
  plain: (length: number) => string,
][] = [
  ['splitting a megabyte into cells', splitCells, HOSTILE_LINES.map((line) => repeated(line, 1_000_000)), plain],
  ['reading a file', read, HOSTILE_CELLS.map(([, text]) => text), note],
  ['showing a line of arithmetic', shown, [...HOSTILE_SUMS.map(sum), `${MACHINE}---\nwork: w\n${CHAIN}\n`], note],
];

const results = KINDS.map(([name, work, texts, plainOf]) => {
  const ratios = texts.map((text) => {
    const floor = plainOf(text.length);
    const pairs = Array.from({ length: ROUNDS }, () => [timed(work, text), timed(work, floor)] as const);
    return { text, ratio: median(pairs.map(([own]) => own)) / median(pairs.map(([, of]) => of)) };
  });
  const worst = ratios.reduce((one, other) => (other.ratio > one.ratio ? other : one));
  return { name, ratio: worst.ratio, text: worst.text.slice(-40) };
});
process.stdout.write(`${JSON.stringify(results)}\n`);

function timed(work: (text: string) => void, text: string): number {
  const start = performance.now();
  work(text);
  return performance.now() - start;
}
