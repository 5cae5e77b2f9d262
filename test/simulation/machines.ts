/** Machines drawn at random: every layout, mount, sense of turning and place of the screw heads. */
import { DIRECTIONS, type Direction } from '../../src/optics/index.ts';
import { acrossFrom } from '../optics/layouts.ts';
import type { Random } from './random.ts';
import type { Plan, Truth } from './world.ts';

/** The 6 · 4³ ways in which three mirrors can lead a beam. */
export const ROUTES: readonly { readonly fires: Direction; readonly sends: readonly Direction[] }[] = DIRECTIONS.flatMap((fires) =>
  acrossFrom(fires).flatMap((first) => acrossFrom(first).flatMap((second) => acrossFrom(second).map((third) => ({ fires, sends: [first, second, third] })))));

export function drawnPlan(draw: Random, route: (typeof ROUTES)[number], { places = 'given', doubt = 20 }: Partial<Pick<Plan, 'places' | 'doubt'>> = {}): Plan {
  return {
    ...route,
    mount: draw.choose(['three screws', 'pivot and two'] as const),
    in: draw.choose([1, -1] as const),
    heads: draw.choose(['behind', 'beam side'] as const),
    places,
    doubt,
    units: draw.choose(['mm', 'in'] as const),
  };
}

/** As found: about 4 mrad at every mirror, 2 mm and 2 mrad at the tube; screws do what their pitch says. */
export function asFound(draw: Random): Truth {
  const screws = () => ({ A: 0.15 * draw.normal(), B: 0.15 * draw.normal() });
  return {
    tube: { right: 2 * draw.normal(), up: 2 * draw.normal(), turnRight: 0.002 * draw.normal(), turnUp: 0.002 * draw.normal() },
    screws: [screws(), screws(), screws()],
    gains: [{}, {}, {}],
    apertures: [0, 1, 2, 3].map(() => ({ right: 0, up: 0 })),
    shifts: [],
  };
}
