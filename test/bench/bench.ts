/**
 * Speed as a ratio to a floor measured in the same run, floor and product turn by turn, on the Node that runs this (the
 * pinned one under `npm run bench`). Milliseconds are for information. Exits with 1 if a ratio exceeds its bound.
 *
 *     npm run bench
 *     npm run bench -- --rounds 21 --cells 20000
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { build } from 'esbuild';
import { median } from './median.ts';
import { workbookOf } from './workbook.ts';

const here = dirname(fileURLToPath(import.meta.url));
const root = join(here, '..', '..');
const { values } = parseArgs({
  options: { rounds: { type: 'string', default: '11' }, cells: { type: 'string', default: '10000' } },
});
const rounds = Number(values.rounds);
const many = Number(values.cells);
/**
 * Bound as a multiple of the time for a plain text of the same length: linear work on 20,000 lines with a finding each
 * takes about a hundred times as long, quadratic work thousands.
 */
const HURT = 400;
/** Texts of the workbook's length. */
const KEPT = 20;
const folder = mkdtempSync(join(tmpdir(), 'alignbook-bench-'));

try {
  const results = [...(await commandLine()), ...(await oneProcess()), ...(await hostile()), await typing()];
  process.exitCode = results.every(Boolean) ? 0 : 1;
} finally {
  rmSync(folder, { recursive: true });
}

/**
 * The whole command on a workbook of ordinary length, start of Node included, against a bundled program that only
 * parses.
 */
async function commandLine(): Promise<boolean[]> {
  const cells = 300;
  const floor = await bundled('floor');
  const file = written(cells);
  const pairs = Array.from({ length: rounds }, () => ({
    floor: timed(() => run([floor, file])),
    product: timed(() => run([join(root, 'dist', 'alignbook.cjs'), 'next', file])),
  }));
  console.log(`node ${process.version}, ${rounds} rounds, medians`);
  return [
    said(
      `next, ${cells} cells`,
      median(pairs.map((pair) => pair.product)),
      'parse with yaml',
      median(pairs.map((pair) => pair.floor)),
      2,
    ),
  ];
}

/** Reading and evaluating many cells against parsing them, each in a fresh process. */
async function oneProcess(): Promise<boolean[]> {
  const program = await bundled('many');
  const file = written(many);
  const once = (what: string) =>
    JSON.parse(run(['--expose-gc', program, what, file])) as { time: number; heap: number; peak: number };
  const pairs = Array.from({ length: Math.ceil(rounds / 2) }, () => ({
    floor: once('parse'),
    product: once('evaluate'),
  }));
  const time = said(
    `evaluate ${many} cells`,
    median(pairs.map(({ product }) => product.time)),
    'parse with yaml',
    median(pairs.map(({ floor }) => floor.time)),
    3,
  );
  const megabytes = (of: (pair: (typeof pairs)[number]) => number) => Math.round(median(pairs.map(of)) / 1e6);
  console.log(
    `  memory kept after it: ${megabytes(({ product }) => product.heap)} MB against ${megabytes(({ floor }) => floor.heap)} MB of parsed documents; peak ${megabytes(({ product }) => product.peak)} MB against ${megabytes(({ floor }) => floor.peak)} MB`,
  );
  return [time];
}

/** Time for a hostile text relative to a plain one of the same length. */
async function hostile(): Promise<boolean[]> {
  const result = JSON.parse(run([await bundled('hostile')])) as { name: string; ratio: number; text: string }[];
  return result.map(({ name, ratio, text }) => {
    console.log(
      `${name}, meant to hurt: ${ratio.toFixed(1)} × a plain one (bound ${HURT}) ${ratio <= HURT ? 'ok' : 'OVER'}   [${JSON.stringify(text)}]`,
    );
    return ratio <= HURT;
  });
}

/**
 * Memory retained after 200 characters are typed into a long workbook: one retained copy of each text would be two
 * hundred.
 */
async function typing(): Promise<boolean> {
  const { texts } = JSON.parse(run(['--expose-gc', await bundled('typing')])) as { texts: number };
  console.log(`200 signs typed: memory of ${texts.toFixed(1)} texts (bound ${KEPT}) ${texts <= KEPT ? 'ok' : 'OVER'}`);
  return texts <= KEPT;
}

function said(what: string, product: number, floorName: string, floor: number, bound: number): boolean {
  const ratio = product / floor;
  console.log(
    `${what}: ${ratio.toFixed(2)} × ${floorName} (bound ${bound}) ${ratio <= bound ? 'ok' : 'OVER'}   [${product.toFixed(0)} ms, ${floor.toFixed(0)} ms]`,
  );
  return ratio <= bound;
}

async function bundled(name: string): Promise<string> {
  const outfile = join(folder, `${name}.cjs`);
  await build({
    entryPoints: [join(here, `${name}.ts`)],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'cjs',
    target: 'node20',
    minify: true,
    logLevel: 'warning',
  });
  return outfile;
}

function written(cells: number): string {
  const file = join(folder, `${cells}.alignbook.yaml`);
  writeFileSync(file, workbookOf(cells));
  return file;
}

function run(command: readonly string[]): string {
  return execFileSync(process.execPath, command, { encoding: 'utf8', maxBuffer: 1e8 });
}

function timed(work: () => void): number {
  const start = performance.now();
  work();
  return performance.now() - start;
}
