/**
 * How CPU time and memory grow with the size of each part of a workbook. Every command is the bundled one in its own
 * process; exponents are of its CPU time minus that for a workbook without the part. Exits with 1 if a bound is missed.
 *
 *     npm run bench:growth
 *     npm run bench:growth -- --series mirrors,notes --rounds 5
 *     npm run bench:growth -- --quick
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, openSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { lineFit } from '../../src/statistics/index.ts';
import { SERIES, type Series } from './growth-series.ts';
import { EMPTY, WORKBOOKS, type Written } from './growth-workbooks.ts';

/** Resources used by a process; infinite if it did not end by itself. */
interface Usage {
  /** CPU time, s. */
  readonly cpu: number;
  /** Most memory, MB. */
  readonly peak: number;
}

interface Point extends Usage {
  readonly size: number;
  /** Of the workbook. */
  readonly bytes: number;
}

/** CPU s by which two runs of one command differ: a smaller difference is noise. */
const NOISE = 0.02;
/** Bytes of a workbook up to which the time limit of its series applies. */
const ORDINARY = 1e6;
/** s, after which a process is ended. */
const PATIENCE = 300;
/** Divisor of the sizes in a quick run. */
const QUICK = 4;

const PROGRAM = join(import.meta.dirname, '..', '..', 'dist', 'alignbook.cjs');
const PROBE = join(import.meta.dirname, 'usage.cjs');
const { values } = parseArgs({
  options: {
    series: { type: 'string' },
    rounds: { type: 'string', default: '3' },
    quick: { type: 'boolean', default: false },
  },
});
const rounds = Number(values.rounds);
const folder = mkdtempSync(join(tmpdir(), 'alignbook-growth-'));
const output = openSync(join(folder, 'output'), 'w');
const empty = new Map<string, number>();

try {
  const series = chosen();
  console.log(`node ${process.version}, the least of ${rounds} rounds: by size CPU s and peak MB; exponent of CPU s`);
  const missed = series.flatMap((one) => one.commands.filter((command) => !isWithin(one, command)));
  process.exitCode = missed.length === 0 ? 0 : 1;
} finally {
  rmSync(folder, { recursive: true });
}

function chosen(): readonly Series[] {
  const names = values.series?.split(',') ?? Object.keys(WORKBOOKS);
  const unknown = names.find((name) => !Object.hasOwn(WORKBOOKS, name));
  if (unknown !== undefined) throw new Error(`no series ${unknown}: ${Object.keys(WORKBOOKS).join(', ')}`);
  const sizes = (some: readonly number[]) => (values.quick ? some.map((size) => Math.ceil(size / QUICK)) : some);
  return SERIES.filter(({ name }) => names.includes(name)).map((one) => ({ ...one, sizes: sizes(one.sizes) }));
}

/** Measures one command, prints its line, and returns whether its bounds are met. */
function isWithin(series: Series, command: string): boolean {
  const points = series.sizes.map((size): Point => {
    const written = WORKBOOKS[series.name](size);
    return { size, bytes: Buffer.byteLength(written.text), ...least(command, written) };
  });
  const exponent = exponentOf(points, baseOf(command));
  const over = [...boundsMissed(series, points, exponent)];
  const row = [
    `${series.name}: ${command}`.padEnd(28),
    points.map(inWords).join(' · '),
    `exponent ${exponent.toFixed(2)} (bound ${series.exponent})`,
    over.length === 0 ? 'ok' : `OVER: ${over.join(', ')}`,
  ];
  console.log(row.join('  '));
  return over.length === 0;
}

function inWords({ size, cpu, peak }: Point): string {
  return cpu === Infinity ? `${size} did not end` : `${size} ${cpu.toFixed(2)} s ${peak.toFixed(0)} MB`;
}

function* boundsMissed(bounds: Series, points: readonly Point[], exponent: number): Generator<string> {
  const { seconds, memory } = bounds;
  // Written so that NaN misses it, too.
  if (!(exponent <= bounds.exponent)) yield 'exponent';
  for (const { size, cpu, peak, bytes } of points) {
    if (cpu === Infinity || (bytes <= ORDINARY && cpu > seconds)) yield `${seconds} s at ${size}`;
    if (size === memory?.size && peak > memory.most) yield `${memory.most} MB at ${size}`;
  }
}

/** By least squares over the logarithms. */
function exponentOf(points: readonly Point[], base: number): number {
  const sizes = points.map(({ size }) => Math.log(size));
  const cpu = points.map((point) => Math.log(Math.max(NOISE, point.cpu - base)));
  return lineFit(sizes, cpu).slope ?? NaN;
}

function baseOf(command: string): number {
  const base = empty.get(command) ?? least(command, { text: EMPTY }).cpu;
  empty.set(command, base);
  return base;
}

/** The minimum counts: other load on the machine only adds to the resources of a process. */
function least(command: string, { text, beside = {} }: Written): Usage {
  const files = { 'workbook.alignbook.yaml': text, ...beside };
  for (const [name, content] of Object.entries(files)) writeFileSync(join(folder, name), content);
  const all = Array.from({ length: rounds }, () => usage(command));
  return { cpu: Math.min(...all.map(({ cpu }) => cpu)), peak: Math.min(...all.map(({ peak }) => peak)) };
}

/** As the process itself reports at its end: every system measures this independently of other load. */
function usage(command: string): Usage {
  const args = ['--require', PROBE, PROGRAM, ...command.split(' '), 'workbook.alignbook.yaml'];
  const options = { cwd: folder, encoding: 'utf8', timeout: 1000 * PATIENCE } as const;
  const said = spawnSync(process.execPath, args, { ...options, stdio: ['ignore', output, 'ignore', 'pipe'] }).output[3];
  return said ? (JSON.parse(said) as Usage) : { cpu: Infinity, peak: Infinity };
}
