import { fstatSync, writeSync } from 'node:fs';
import { threads } from '../machine/index.ts';
import { part } from '../disk/index.ts';
import type { Tables } from '../language/index.ts';
import { evaluated } from './evaluated.ts';
import { paintFor } from './paint.ts';
import { run } from './run.ts';
import { COLUMNS } from './terminal.ts';

declare const ALIGNBOOK_VERSION: string;
/** Files beside this one: most workbooks and commands do not need them. */
declare const require: {
  (file: './expressions.cjs'): typeof import('./expressions.ts');
  (file: './files.cjs'): typeof import('./files.ts');
};

const tables: Tables = {
  threads,
  expressions: () => part('expressions.cjs', () => require('./expressions.cjs')).expressions(),
};
// `process.stdout` is only used if it can be a terminal: creating it takes longer than reading a short workbook.
const isTTY = fstatSync(1).isCharacterDevice() && process.stdout.isTTY;

const exit = run(
  process.argv.slice(2),
  {
    out: (content) => write(1, content),
    error: (text) => write(2, text),
    paint: paintFor({ isTTY }, process.env),
    columns: (isTTY && process.stdout.columns) || COLUMNS,
  },
  {
    version: ALIGNBOOK_VERSION,
    evaluated: (file, isJudged, name) => evaluated(file, tables, isJudged, name),
    tables,
    files: () => part('files.cjs', () => require('./files.cjs')).files,
    today: () => dayOf(new Date()),
    page: () => part('files.cjs', () => require('./files.cjs')).files.page(),
  },
);
// All output is written synchronously, so Node need not clean up first.
if (typeof exit === 'number') process.exit(exit);
else void exit.then((code) => process.exit(code));

/** In the user's time zone, not in UTC. */
function dayOf(now: Date): string {
  const two = (number: number) => String(number).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/**
 * Synchronous, so that no output is lost when a pipe is slow. A reader that has closed the pipe (`| head`) is no error,
 * a full disk is.
 */
function write(descriptor: 1 | 2, content: string | Uint8Array): void {
  let rest = Buffer.from(content);
  while (rest.length > 0) {
    try {
      rest = rest.subarray(writeSync(descriptor, rest));
    } catch (problem) {
      const code = problem instanceof Error && 'code' in problem ? problem.code : problem;
      if (code === 'EPIPE') return;
      if (code === 'EAGAIN') continue;
      if (descriptor === 1) write(2, `alignbook: Standard output cannot be written (${code}).\n`);
      process.exit(2);
    }
  }
}
