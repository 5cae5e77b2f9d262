/** Runs its share of the machines of an order, the first and then every so many further, and posts each result. */
import { parentPort, workerData } from 'node:worker_threads';
import { runMachine, type Order } from './converge-machine.ts';
import { runInWorld } from './converge-world.ts';

export interface Share {
  readonly order: Order;
  /** Beside today's habit, or alone with what its world shows. */
  readonly as: 'compared' | 'alone';
  readonly machines: number;
  readonly first: number;
  readonly every: number;
}

const { order, as, machines, first, every } = workerData as Share;
const run = as === 'compared' ? runMachine : runInWorld;
for (let machine = first; machine < machines; machine += every) parentPort!.postMessage(run(order, machine));
