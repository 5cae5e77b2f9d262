/** A mark, a slope and a probability in words. Lengths in the machine’s units, angles mrad; directions both the viewer’s and the machine’s. */
import { lengthsIn, type Direction, type StationReport, type StationState } from '../model/index.ts';
import { opposite } from '../optics/index.ts';

/**
 * A mark's place for a person: `5.7 left (machine right) 2.1 up`; on vertical legs the machine's words alone. A part that
 * was not read is said to be so. In inches each part has its unit, `7/32 in left`; millimetres are named by who shows it.
 * mm, viewer's frame.
 */
export function markInWords(right: number | undefined, up: number | undefined, frame: StationReport['frame']): string {
  return inDirections(right, up, frame, lengthsIn(frame.units).mark);
}

/** The same of a slope, mrad, without its unit. */
export function slopeInDirections(right: number, up: number, frame: StationReport['frame']): string {
  return inDirections(right, up, frame, (mrad) => mrad.toFixed(1));
}

function inDirections(
  right: number | undefined,
  up: number | undefined,
  frame: StationReport['frame'],
  told: (amount: number) => string,
): string {
  const parts = [
    side(right, 'right', 'left', frame.right, isVertical(frame.runs), up === undefined, told),
    side(up, 'up', 'down', frame.up, isVertical(frame.runs), right === undefined, told),
  ];
  return parts.filter((part) => part !== '').join(' ') || 'centred';
}

function isVertical(runs: Direction): boolean {
  return runs === 'up' || runs === 'down';
}

/** @param alone the other part was not read: then nought is told, too */
// biome-ignore lint/complexity/useMaxParams: one axis of a mark in all its parts
function side(
  amount: number | undefined,
  positive: Direction,
  negative: Direction,
  machine: Direction,
  machineOnly: boolean,
  alone: boolean,
  told: (amount: number) => string,
): string {
  if (amount === undefined) return `(${positive} or ${negative} not read)`;
  const rounded = told(Math.abs(amount));
  if (rounded === told(0) && !alone) return '';
  return `${rounded} ${amount >= 0 ? sideInWords(positive, machine, machineOnly) : sideInWords(negative, opposite(machine), machineOnly)}`;
}

/** `left (machine right)`: one side as the viewer has it, and as the machine has it. */
export function sideInWords(word: Direction, machine: Direction, machineOnly: boolean): string {
  return machineOnly || word === machine ? machine : `${word} (machine ${machine})`;
}

/** `out of limits (probability within < 1 %)`: the state of a station whose limits were weighed. */
export function verdictInWords(state: StationState, probability: number): string {
  return `${WITH_LIMITS[state] ?? state} (probability within ${percent(probability)})`;
}

const WITH_LIMITS: Readonly<Partial<Record<StationState, string>>> = {
  within: 'within limits',
  outside: 'out of limits',
};

/** Rounded down: a chance is never told as more than it is. */
export function percent(probability: number): string {
  if (probability > 0.99) return '> 99 %';
  return probability < 0.01 ? '< 1 %' : `${Math.floor(probability * 100)} %`;
}
