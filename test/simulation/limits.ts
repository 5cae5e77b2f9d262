/** What is asked of a machine, as the workbook says it and as the hidden truth keeps it. Lengths mm, angles rad. */
import { READING } from './workshop.ts';
import { LEGS, layoutOf, marksOf, withBed, type Plan, type Truth } from './world.ts';

interface Limit {
  readonly centre: number;
  readonly spread?: number;
  readonly plumb?: number;
}

/** By element index. */
export const LIMITS: readonly Limit[] = [{ centre: 3 }, { centre: 2.5, spread: 2 }, { centre: 2.5, spread: 2 }, { centre: 2, plumb: 0.012 }];
const NAMES = ['M1', 'M2', 'M3', 'lens'];

/** The limits cell. It tells the truth about the reading. */
export function limitsCell(): string {
  const asked = ({ centre, spread, plumb }: Limit) => [
    `centre: ${centre} mm`,
    ...(spread === undefined ? [] : [`spread: ${spread} mm`]),
    ...(plumb === undefined ? [] : [`plumb: ${plumb * 1000} mrad`]),
  ].join(', ');
  return [
    'limits: trial',
    'stations:',
    ...LIMITS.map((limit, k) => `  ${NAMES[k]}: {${asked(limit)}}`),
    `reading: {resolution: ${READING.step} mm, placing: ${READING.noise} mm}`,
    'confidence: 80 %',
    '',
  ].join('\n');
}

/** A limit and the share of it that the machine really takes: 1 is just within. */
export interface TrueShare {
  readonly station: string;
  readonly limit: keyof Limit;
  readonly share: number;
}

/** Largest over the four corners of gantry and head. */
export function trueShares(plan: Plan, truth: Truth): TrueShare[] {
  const layout = layoutOf(plan);
  const corners = [LEGS.M2.near, LEGS.M2.far].flatMap((gantry) => [LEGS.M3.near, LEGS.M3.far].map((head) => ({ M2: gantry, M3: head })));
  const marks = corners.map((corner) => marksOf(layout, truth, corner));
  const below = (height: number) => corners.map((corner) => marksOf(withBed(layout, height), truth, corner).at(-1)!);
  const [top, bottom] = [below(0), below(BED_DEPTH)];
  return LIMITS.flatMap(({ centre, spread, plumb }, k): TrueShare[] => {
    const here = marks.map((corner) => corner[k]!);
    const taken = (limit: keyof Limit, values: readonly number[], max: number) => ({ station: NAMES[k]!, limit, share: Math.max(...values) / max });
    return [
      taken('centre', here.map((mark) => distance(mark, MIDDLE)), centre),
      ...(spread === undefined ? [] : [taken('spread', here.flatMap((one) => here.map((other) => distance(one, other))), spread)]),
      ...(plumb === undefined ? [] : [taken('plumb', top.map((mark, corner) => distance(mark, bottom[corner]!) / BED_DEPTH), plumb)]),
    ];
  });
}

/** Any depth does: the last leg is straight. */
const BED_DEPTH = 100;
const MIDDLE = { right: 0, up: 0 };

type Spot = { readonly right: number; readonly up: number } | null;

/** A beam that never comes is infinitely far off. */
function distance(one: Spot, other: Spot): number {
  return one && other ? Math.hypot(one.right - other.right, one.up - other.up) : Infinity;
}
