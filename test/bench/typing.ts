/** Prints the memory retained after typing into a long workbook, in texts of its length. Needs `--expose-gc`. */
import { createBook, expressions, threads } from '../../src/language/index.ts';
import { MACHINE } from '../workbook/sample.ts';

// In one piece, as an editor sends it.
let text = Buffer.from(
  `${MACHINE}---\n${'note: |\n  The gantry ran freely; its belts were tightened.\n---\n'.repeat(4000)}`,
).toString();
const book = createBook({ threads, expressions }, 'bench.alignbook.yaml', new Map(), text);
let at = 0;

/** Characters inserted, each into another cell; the memory that is in use afterwards, in bytes. */
function type(times: number): number {
  for (let k = 0; k < times; k++) {
    at = text.indexOf('gantry', at + 1);
    text = `${text.slice(0, at)}x${text.slice(at)}`;
    book.change(text, { start: at, end: at, length: 1 });
    book.advance(() => false);
    book.findings();
  }
  globalThis.gc!();
  return process.memoryUsage().heapUsed;
}

const before = type(20);
process.stdout.write(`${JSON.stringify({ texts: (type(200) - before) / text.length })}\n`);
