/**
 * Every machine that can be built from right-angled mirrors: six firing directions, four ways on at each mirror.
 *
 * Sign errors are the main risk of an alignment tool, and the layouts are few enough to test all of them: 6 · 4ⁿ for n
 * mirrors.
 */
import { DIRECTIONS, directionVector, dot, type Direction, type Layout } from '../../src/optics/index.ts';
import { mirror } from './machine.ts';

const LEGS = [90, 690, 910, 250];

/**
 * All layouts of a number of mirrors (at most four) and a lens 60 mm after the last. Legs as at the engraver's far
 * stops.
 */
export function everyLayout(mirrors: number): readonly Layout[] {
  return DIRECTIONS.flatMap((fires) => pathsFrom(fires, mirrors).map((path) => layoutOf(fires, path)));
}

export function layoutOf(fires: Direction, path: readonly Direction[]): Layout {
  const elements = path.map((sends, index) => mirror(`M${index + 1}`, sends, LEGS[index] ?? 100));
  return { fires, elements: [...elements, { name: 'lens', kind: 'lens', leg: 60, inset: 0 }] };
}

function pathsFrom(arrives: Direction, mirrors: number): readonly (readonly Direction[])[] {
  if (mirrors === 0) return [[]];
  return acrossFrom(arrives).flatMap((sends) => pathsFrom(sends, mirrors - 1).map((rest) => [sends, ...rest]));
}

/** The four directions in which a mirror can send a beam that arrives in this one. */
export function acrossFrom(arrives: Direction): readonly Direction[] {
  return DIRECTIONS.filter((sends) => dot(directionVector(sends), directionVector(arrives)) === 0);
}

/** `left → front → right → down`, for messages. */
export function pathOf(layout: Layout): string {
  return [layout.fires, ...layout.elements.flatMap(({ sends }) => sends ?? [])].join(' → ');
}
