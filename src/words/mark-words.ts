/**
 * A mark, a slope and a probability in words. Lengths in the machine's units, angles mrad; directions both the viewer's
 * and the machine's.
 */
import { lengthsIn, type Direction, type StationReport, type StationState } from '../model/index.ts';
import { opposite } from '../optics/index.ts';

/**
 * A mark in words: `5.7 left (machine right) 2.1 up`; on vertical legs the machine's words only. A coordinate that was
 * not read is named. In inches each coordinate has its unit, `7/32 in left`; for millimetres the caller adds the unit.
 * mm, viewer's frame.
 */
export function markInWords(right: number | undefined, up: number | undefined, frame: StationReport['frame']): string {
  return inDirections(right, up, frame, lengthsIn(frame.units).mark);
}

/** The same with the unit behind each length: `5.7 mm left (machine right) 2.1 mm up`. */
export function markWithUnits(
  right: number | undefined,
  up: number | undefined,
  frame: StationReport['frame'],
): string {
  return inDirections(right, up, frame, lengthsIn(frame.units).read);
}

/** The same for a slope, mrad, without the unit. */
export function slopeInDirections(right: number, up: number, frame: StationReport['frame']): string {
  return inDirections(right, up, frame, (mrad) => mrad.toFixed(1));
}

function inDirections(
  right: number | undefined,
  up: number | undefined,
  frame: StationReport['frame'],
  format: (amount: number) => string,
): string {
  const parts = [
    side(right, 'right', 'left', frame.right, isVertical(frame.runs), up === undefined, format),
    side(up, 'up', 'down', frame.up, isVertical(frame.runs), right === undefined, format),
  ];
  return parts.filter((part) => part !== '').join(' ') || 'centred';
}

function isVertical(runs: Direction): boolean {
  return runs === 'up' || runs === 'down';
}

/** @param alone the other coordinate was not read: then a zero is shown too */
// biome-ignore lint/complexity/useMaxParams: one axis of a mark in all its parts
function side(
  amount: number | undefined,
  positive: Direction,
  negative: Direction,
  machine: Direction,
  machineOnly: boolean,
  alone: boolean,
  format: (amount: number) => string,
): string {
  if (amount === undefined) return `(${positive} or ${negative} not read)`;
  const rounded = format(Math.abs(amount));
  if (rounded === format(0) && !alone) return '';
  return `${rounded} ${amount >= 0 ? sideInWords(positive, machine, machineOnly) : sideInWords(negative, opposite(machine), machineOnly)}`;
}

/** `left (machine right)`: a side in the viewer's and in the machine's words. */
export function sideInWords(word: Direction, machine: Direction, machineOnly: boolean): string {
  return machineOnly || word === machine ? machine : `${word} (machine ${machine})`;
}

/** `out of limits (probability within < 1 %)`: the state of a station that has limits. */
export function verdictInWords(state: StationState, probability: number): string {
  return `${WITH_LIMITS[state] ?? state} (probability within ${percent(probability)})`;
}

const WITH_LIMITS: Readonly<Partial<Record<StationState, string>>> = {
  within: 'within limits',
  outside: 'out of limits',
};

/** Rounded down, so that a probability is never overstated. */
export function percent(probability: number): string {
  if (probability > 0.99) return '> 99 %';
  return probability < 0.01 ? '< 1 %' : `${Math.floor(probability * 100)} %`;
}
