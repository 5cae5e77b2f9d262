/**
 * The limits of a machine, as the workbook states them and as the hidden true machine meets them. Lengths mm, angles
 * rad.
 */
import { READING } from './workshop.ts';
import { LEGS, layoutOf, marksOf, withBed, type Plan, type Truth } from './world.ts';

interface Limit {
  readonly centre: number;
  readonly spread?: number;
  readonly plumb?: number;
}

/** By element index. */
export const LIMITS: readonly Limit[] = [
  { centre: 3 },
  { centre: 2.5, spread: 2 },
  { centre: 2.5, spread: 2 },
  { centre: 2, plumb: 0.012 },
];
const NAMES = ['M1', 'M2', 'M3', 'lens'];

/** The limits cell. Its reading uncertainties are the true ones. */
export function limitsCell(): string {
  const entry = ({ centre, spread, plumb }: Limit) =>
    [
      `centre: ${centre} mm`,
      ...(spread === undefined ? [] : [`spread: ${spread} mm`]),
      ...(plumb === undefined ? [] : [`plumb: ${plumb * 1000} mrad`]),
    ].join(', ');
  return [
    'limits: trial',
    'stations:',
    ...LIMITS.map((limit, k) => `  ${NAMES[k]}: {${entry(limit)}}`),
    `reading: {resolution: ${READING.step} mm, placing: ${READING.noise} mm}`,
    'confidence: 80 %',
    '',
  ].join('\n');
}

/** A limit and its true utilisation: 1 is just within. */
export interface TrueUtilisation {
  readonly station: string;
  readonly limit: keyof Limit;
  readonly share: number;
}

/**
 * Fractions of a travel at which a limit is evaluated: sagging or racking rails are worst at an end or in the middle.
 */
const ALONG = [0, 0.25, 0.5, 0.75, 1];
const along = ({ near, far }: { readonly near: number; readonly far: number }) =>
  ALONG.map((share) => near + share * (far - near));

/** The largest value over both travels: corners, middles and points between. */
export function trueUtilisations(plan: Plan, truth: Truth): TrueUtilisation[] {
  const layout = layoutOf(plan);
  const places = along(LEGS.M2).flatMap((gantry) => along(LEGS.M3).map((head) => ({ M2: gantry, M3: head })));
  const marks = places.map((place) => marksOf(layout, truth, place));
  const below = (height: number) => places.map((place) => marksOf(withBed(layout, height), truth, place).at(-1)!);
  const [top, bottom] = [below(0), below(BED_DEPTH)];
  return LIMITS.flatMap(({ centre, spread, plumb }, k): TrueUtilisation[] => {
    const here = marks.map((some) => some[k]!);
    const measured = (limit: keyof Limit, values: readonly number[], max: number) => ({
      station: NAMES[k]!,
      limit,
      share: Math.max(...values) / max,
    });
    return [
      measured(
        'centre',
        here.map((mark) => distance(mark, MIDDLE)),
        centre,
      ),
      ...(spread === undefined
        ? []
        : [
            measured(
              'spread',
              here.flatMap((one) => here.map((other) => distance(one, other))),
              spread,
            ),
          ]),
      ...(plumb === undefined
        ? []
        : [
            measured(
              'plumb',
              top.map((mark, place) => distance(mark, bottom[place]!) / BED_DEPTH),
              plumb,
            ),
          ]),
    ];
  });
}

/** Any depth gives the same slope: the last leg is straight. */
const BED_DEPTH = 100;
const MIDDLE = { right: 0, up: 0 };

type Position = { readonly right: number; readonly up: number } | null;

/** A beam that does not arrive is infinitely far off. */
function distance(one: Position, other: Position): number {
  return one && other ? Math.hypot(one.right - other.right, one.up - other.up) : Infinity;
}
