/** `900 x 600`: the travel of the head sideways and of the gantry to the rear. */
import type { Travel } from './answers.ts';

const SIZE = /^\s*(\d+(?:\.\d+)?)\s*(?:mm|in)?\s*[x×*]\s*(\d+(?:\.\d+)?)\s*(?:mm|in)?\s*$/i;

/** Undefined if it is not two lengths. */
export function readTravel(text: string): Travel | undefined {
  const [, width, depth] = SIZE.exec(text) ?? [];
  const travel = { width: Number(width), depth: Number(depth) };
  return travel.width > 0 && travel.depth > 0 ? travel : undefined;
}
