/** Runs its share of the machines of an order, the first and then every so many further, and posts each result. */
import { parentPort, workerData } from 'node:worker_threads';
import { runMachine, type Order } from './converge-machine.ts';

export interface Share {
  readonly order: Order;
  readonly machines: number;
  readonly first: number;
  readonly every: number;
}

const { order, machines, first, every } = workerData as Share;
for (let machine = first; machine < machines; machine += every) parentPort!.postMessage(runMachine(order, machine));
