/**
 * How well the tool's advice brings machines into their limits: a hidden world is worked on as the tool says and, from
 * the same start, by today's habit. Ends with 1 where a goal is missed or the command says something else.
 *
 *     npm run bench:converge -- --machines 1000 --seed 7
 *     npm run bench:converge -- --start 2 --places unknown --command 0 --jobs 4
 *     npm run bench:converge -- --seed 7 --show 12      (machine 12 of that run: its workbook and the last advice)
 */
import { parseArgs } from 'node:util';
import { Worker } from 'node:worker_threads';
import { trueShares } from '../simulation/limits.ts';
import { drawMachine, sessionOf, type Order, type Result } from './converge-machine.ts';
import { report } from './converge-report.ts';
import type { Share } from './converge-worker.ts';

const { values } = parseArgs({
  options: {
    machines: { type: 'string', default: '1000' },
    seed: { type: 'string', default: '1' },
    start: { type: 'string', default: '1' },
    places: { type: 'string', default: 'given' },
    command: { type: 'string', default: '20' },
    jobs: { type: 'string', default: '2' },
    show: { type: 'string' },
  },
});
if (values.places !== 'given' && values.places !== 'unknown') throw new Error('--places is `given` or `unknown`');
const order: Order = { seed: Number(values.seed), start: Number(values.start), places: values.places, command: Number(values.command) };

if (values.show !== undefined) show(Number(values.show));
else {
  const { lines, missed } = report(order, await run(Number(values.machines), Number(values.jobs)));
  say(...lines);
  process.exitCode = missed ? 1 : 0;
}

/** The result does not depend on the number of jobs: each machine has its own random numbers. */
async function run(machines: number, jobs: number): Promise<Result[]> {
  const shares = Array.from({ length: jobs }, (_, first): Share => ({ order, machines, first, every: jobs }));
  const results = await Promise.all(shares.map(inOneJob));
  return results.flat().toSorted((one, other) => one.machine - other.machine);
}

function inOneJob(share: Share): Promise<Result[]> {
  return new Promise((resolve, reject) => {
    const results: Result[] = [];
    const worker = new Worker(new URL('converge-worker.ts', import.meta.url), { workerData: share });
    worker.on('message', (result: Result) => results.push(result));
    worker.on('error', reject);
    worker.on('exit', () => resolve(results));
  });
}

function show(machine: number): void {
  const drawn = drawMachine(order, machine);
  const { text, last, truth, adjustments, shots } = sessionOf(drawn);
  say(
    text,
    `machine ${machine} of seed ${order.seed}, ${drawn.layout}: ${last.verdict} after ${adjustments} adjustments and ${shots} shots`,
    ...last.stations.map(({ name, state, probability }) => `${name} ${state}${probability === undefined ? '' : `, ${(100 * probability).toFixed(1)} % sure to be within`}`),
    ...last.steps.flatMap(({ why, say: what }) => [...(why === undefined ? [] : [`why  ${why}`]), `do   ${what}`]),
    ...trueShares(drawn.plan, truth).map(({ station, limit, share }) => `true ${station} ${limit}: ${share.toFixed(2)} of its limit`),
  );
}

function say(...lines: readonly string[]): void {
  process.stdout.write(`${lines.join('\n')}\n`);
}
