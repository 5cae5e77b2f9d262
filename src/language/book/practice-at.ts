/** Whether the machine at a cell is simulated. */
import type { Machine, Simulation } from '../../model/index.ts';
import type { Book } from './book-type.ts';
import { machineAt } from './machine-at.ts';

/** A practice workbook's machine with its parameters. */
export interface PracticeMachine {
  readonly machine: Machine;
  readonly simulation: Simulation;
}

/** The simulated machine in force at a cell; undefined for a real one. */
export function practiceAt(book: Book, cell: number = Infinity): PracticeMachine | undefined {
  const machine = machineAt(book, cell);
  return machine?.practice && { machine, simulation: machine.practice };
}
