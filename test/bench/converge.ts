/**
 * How well the tool's advice brings machines into their limits: a hidden machine is aligned by the tool's advice and,
 * from the same start, by the manual method; or, with `--world`, by the tool alone in worlds that differ from the
 * program's model. Exits with 1 if a goal is missed or the command's answer differs.
 *
 *     npm run bench:converge -- --machines 1000 --seed 7
 *     npm run bench:converge -- --start 2 --places unknown --command 0 --jobs 4
 *     npm run bench:converge -- --seed 7 --show 12      (machine 12 of that run: its workbook and the last advice)
 *     npm run bench:converge -- --world all --machines 300
 *     npm run bench:converge -- --world rack=6,loose --machines 300 --seed 7
 *
 * `node test/bench/converge.ts` runs without bundling first; only `--command` needs the bundle.
 */
import { parseArgs } from 'node:util';
import { Worker } from 'node:worker_threads';
import { trueUtilisations } from '../simulation/limits.ts';
import { WORLDS, worldOf } from '../simulation/worlds.ts';
import { drawMachine, sessionOf, type Order, type Result } from './converge-machine.ts';
import { report, type Report } from './converge-report.ts';
import type { Share } from './converge-worker.ts';
import type { WorldResult } from './converge-world.ts';
import { row, worldsReport, type WorldRun } from './converge-worlds.ts';

const { values } = parseArgs({
  options: {
    machines: { type: 'string', default: '1000' },
    seed: { type: 'string', default: '1' },
    start: { type: 'string', default: '1' },
    places: { type: 'string', default: 'given' },
    command: { type: 'string', default: '20' },
    jobs: { type: 'string', default: '2' },
    show: { type: 'string' },
    world: { type: 'string' },
  },
});
if (values.places !== 'given' && values.places !== 'unknown') throw new Error('--places is `given` or `unknown`');
const order: Order = {
  seed: Number(values.seed),
  start: Number(values.start),
  places: values.places,
  command: Number(values.command),
  world: 'base',
};
const machines = Number(values.machines);

if (values.show !== undefined) show({ ...order, world: worldOf(values.world ?? 'base').name }, Number(values.show));
else {
  const { lines, missed } = await reported();
  say(...lines);
  process.exitCode = missed ? 1 : 0;
}

async function reported(): Promise<Report> {
  if (values.world === undefined) return report(order, await run<Result>(order, 'compared'));
  const worlds = values.world === 'all' ? WORLDS : values.world.split(',').map((one) => worldOf(one).name);
  const runs: WorldRun[] = [];
  for (const world of worlds) {
    const begun = performance.now();
    const results = await run<WorldResult>({ ...order, world }, 'alone');
    runs.push({ world, results, seconds: (performance.now() - begun) / 1000 });
    process.stderr.write(`${row(runs.at(-1)!).join('  ')}\n`);
  }
  return worldsReport(order, runs);
}

/** The result does not depend on the number of jobs: each machine has its own random numbers. */
async function run<T extends { readonly machine: number }>(ordered: Order, as: Share['as']): Promise<T[]> {
  const jobs = Number(values.jobs);
  const shares = Array.from(
    { length: jobs },
    (_, first): Share => ({ order: ordered, as, machines, first, every: jobs }),
  );
  const results = await Promise.all(shares.map(inOneJob<T>));
  return results.flat().toSorted((one, other) => one.machine - other.machine);
}

function inOneJob<T>(share: Share): Promise<T[]> {
  return new Promise((resolve, reject) => {
    const results: T[] = [];
    const worker = new Worker(new URL('converge-worker.ts', import.meta.url), { workerData: share });
    worker.on('message', (result: T) => results.push(result));
    worker.on('error', reject);
    worker.on('exit', () => resolve(results));
  });
}

function show(ordered: Order, machine: number): void {
  const drawn = drawMachine(ordered, machine);
  const { text, last, log, truth, adjustments, shots } = sessionOf(drawn);
  say(
    text,
    `machine ${machine} of seed ${ordered.seed}, world ${ordered.world}, ${drawn.layout}: ${last.verdict} after ${log.length - 1} rounds, ${adjustments} adjustments and ${shots} shots`,
    `findings: ${last.findings.map(({ code }) => code).join(' ') || 'none'}`,
    ...last.stations.map(
      ({ name, state, probability }) =>
        `${name} ${state}${probability === undefined ? '' : `, ${(100 * probability).toFixed(1)} % probability of being within`}`,
    ),
    ...last.steps.flatMap(({ why, say: what }) => [...(why === undefined ? [] : [`why  ${why}`]), `do   ${what}`]),
    ...trueUtilisations(drawn.plan, truth).map(
      ({ station, limit, share }) => `true ${station} ${limit}: ${share.toFixed(2)} of its limit`,
    ),
  );
}

function say(...lines: readonly string[]): void {
  process.stdout.write(`${lines.join('\n')}\n`);
}
