/** Runs its share of the machines of a run, from its first in fixed steps, and posts each result. */
import { parentPort, workerData } from 'node:worker_threads';
import { runMachine, type Order } from './converge-machine.ts';
import { runInWorld } from './converge-world.ts';

export interface Share {
  readonly order: Order;
  /** Together with the manual method, or alone with the counts of its world. */
  readonly as: 'compared' | 'alone';
  readonly machines: number;
  readonly first: number;
  readonly every: number;
}

const { order, as, machines, first, every } = workerData as Share;
const run = as === 'compared' ? runMachine : runInWorld;
for (let machine = first; machine < machines; machine += every) parentPort!.postMessage(run(order, machine));
