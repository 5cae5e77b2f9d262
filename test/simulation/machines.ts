/**
 * Machines drawn at random: any layout or only those that are built, mounts, senses of turning, sides of the screw
 * heads.
 */
import { DIRECTIONS, type Direction } from '../../src/optics/index.ts';
import { acrossFrom } from '../optics/layouts.ts';
import type { Random } from './random.ts';
import { mountOf, turnsForTilt, type Plan, type Truth } from './world.ts';

/** The 6 · 4³ ways in which three mirrors can lead a beam. */
export const ROUTES: readonly { readonly fires: Direction; readonly sends: readonly Direction[] }[] =
  DIRECTIONS.flatMap((fires) =>
    acrossFrom(fires).flatMap((first) =>
      acrossFrom(first).flatMap((second) =>
        acrossFrom(second).map((third) => ({ fires, sends: [first, second, third] })),
      ),
    ),
  );

/**
 * Engravers as they are built: the last mirror sends down through the lens; the first six in pairs of mirror images.
 */
export const ENGRAVERS: readonly {
  readonly name: string;
  readonly fires: Direction;
  readonly sends: readonly Direction[];
}[] = [
  { name: 'tube rear, fires left', fires: 'left', sends: ['front', 'right', 'down'] },
  { name: 'tube rear, fires right', fires: 'right', sends: ['front', 'left', 'down'] },
  { name: 'tube left, fires rear', fires: 'rear', sends: ['right', 'front', 'down'] },
  { name: 'tube right, fires rear', fires: 'rear', sends: ['left', 'front', 'down'] },
  { name: 'tube upright, head runs right', fires: 'up', sends: ['front', 'right', 'down'] },
  { name: 'tube upright, head runs left', fires: 'up', sends: ['front', 'left', 'down'] },
  { name: 'tube front, fires left', fires: 'left', sends: ['rear', 'right', 'down'] },
  { name: 'tube left, fires front', fires: 'front', sends: ['right', 'rear', 'down'] },
];

export function drawnPlan(
  draw: Random,
  { fires, sends }: (typeof ROUTES)[number],
  { places = 'given', doubt = 20 }: Partial<Pick<Plan, 'places' | 'doubt'>> = {},
): Plan {
  return {
    fires,
    sends,
    mount: draw.choose(['three screws', 'pivot and two'] as const),
    in: draw.choose([1, -1] as const),
    heads: draw.choose(['behind', 'beam side'] as const),
    places,
    doubt,
    units: draw.choose(['mm', 'in'] as const),
  };
}

/** As found: about 4 mrad at every mirror, 2 mm and 2 mrad at the tube; screws follow their pitch. */
export function asFound(draw: Random): Truth {
  const screws = () => ({ A: 0.15 * draw.normal(), B: 0.15 * draw.normal() });
  return {
    tube: {
      right: 2 * draw.normal(),
      up: 2 * draw.normal(),
      turnRight: 0.002 * draw.normal(),
      turnUp: 0.002 * draw.normal(),
    },
    screws: [screws(), screws(), screws()],
    gains: [{}, {}, {}],
    apertures: [0, 1, 2, 3].map(() => ({ right: 0, up: 0 })),
    shifts: [],
  };
}

/**
 * Standard deviations of a machine after transport. mm and slopes; the effect of a turn as a fraction of the pitch, cut
 * off at `most` of them.
 */
const TILT = 0.004;
const TUBE = { place: 2, turn: 0.002 } as const;
const APERTURE = 0.4;
const GAIN = { deviation: 0.15, most: 10 / 3 } as const;

/**
 * As found by the technician: mirrors, tube and apertures all off, and screws whose effect deviates from their pitch.
 *
 * @param scale of all errors of place and angle; the effects of screws are not scaled, because the workbook states
 * their uncertainty
 * @param deviation of the effect of a turn, as a fraction of the pitch
 */
export function afterTransport(draw: Random, plan: Plan, scale: number, deviation: number = GAIN.deviation): Truth {
  const about = (width: number) => scale * width * draw.normal();
  const gain = () => 1 + deviation * Math.min(GAIN.most, Math.max(-GAIN.most, draw.normal()));
  const { screws } = mountOf(plan);
  return {
    tube: { right: about(TUBE.place), up: about(TUBE.place), turnRight: about(TUBE.turn), turnUp: about(TUBE.turn) },
    screws: plan.sends.map(() => turnsForTilt(plan, about(TILT), about(TILT))),
    gains: plan.sends.map(() => Object.fromEntries(screws.map(({ name }) => [name, gain()]))),
    apertures: [...plan.sends, 'lens'].map(() => ({ right: about(APERTURE), up: about(APERTURE) })),
    shifts: [],
  };
}
