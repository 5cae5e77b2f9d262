/**
 * The hidden true machine: true positions, true effects of the screws, and the marks on tape. It is independent of the
 * product: rays by a general 3-D library (`test/optics/referee.ts`), mirrors as planes through three advanced tips. The
 * product gets it only as text: the machine cell, and marks.
 *
 * Axes: machine frame x right, y rear, z up; marks in the viewer's frame; mm, slopes, turns (positive = in).
 */
import type { Carriages, Direction, Layout, Mount, Screw, Vector } from '../../src/optics/index.ts';
import { refereeTrace } from '../optics/referee.ts';
import { traceOnRails, type Rails } from './rails.ts';

export interface Plan {
  readonly fires: Direction;
  readonly sends: readonly Direction[];
  readonly mount: 'three screws' | 'pivot and two';
  readonly in: 1 | -1;
  readonly heads: 'behind' | 'beam side';
  /** Whether the workbook gives the places of the screws. */
  readonly places: 'given' | 'unknown';
  readonly units: 'mm' | 'in';
  /** Relative doubt of the screws as stated in the workbook, %. */
  readonly doubt: number;
  /** How the workbook describes every mount wrongly; absent: correctly. */
  readonly wrongMount?: WrongMount;
  /** Whether the mounts have lock nuts; absent: they have none. */
  readonly locks?: 'nut' | 'none';
}

/** The usual engraver in millimetres, its screws described in the workbook. @param doubt as in the plan, % */
export function usualPlan(doubt: number): Plan {
  return {
    fires: 'left',
    sends: ['front', 'right', 'down'],
    mount: 'three screws',
    in: 1,
    heads: 'behind',
    places: 'given',
    units: 'mm',
    doubt,
  };
}

/** In the text only: `in` reversed, `right` of the places negated, the names A and B exchanged, the pitch doubled. */
export type WrongMount = 'in' | 'mirror' | 'swap' | 'pitch';

/** The hidden state. Lists are by element index. */
export interface Truth {
  readonly tube: { readonly right: number; readonly up: number; readonly turnRight: number; readonly turnUp: number };
  /** By mirror: distance of each screw from its nominal position, turns. */
  readonly screws: readonly Readonly<Record<string, number>>[];
  /** True effect of a turn, as a fraction of the pitch; by mirror and screw. */
  readonly gains: readonly Readonly<Record<string, number>>[];
  readonly apertures: readonly { readonly right: number; readonly up: number }[];
  readonly shifts: readonly Vector[];
  /** Absent: straight and square. */
  readonly rails?: Rails;
}

export const LEGS = { M1: 90, M2: { near: 130, far: 690 }, M3: { near: 70, far: 910 }, lens: 60 } as const;
/** Diameters by element index, mm. */
export const APERTURES = [20, 20, 18, 18] as const;
const PITCH = 0.7;

export function mountOf(plan: Plan): Mount {
  const screw = (name: string, right: number, up: number): Screw => ({ name, right, up, pitch: PITCH, in: plan.in });
  const screws = [screw('A', -22, 22), screw('B', 22, -22)];
  return plan.mount === 'three screws'
    ? { screws: [...screws, screw('C', -22, -22)] }
    : { screws, pivot: { right: -22, up: -22 } };
}

export function layoutOf(plan: Plan): Layout {
  const mount = mountOf(plan);
  const mirror = (name: string, sends: Direction, where: { leg: number } | { stops: Record<string, number> }) =>
    ({ name, kind: 'mirror', sends, inset: 0, mount, ...where }) as const;
  const [first, second, third] = plan.sends;
  return {
    fires: plan.fires,
    elements: [
      mirror('M1', first!, { leg: LEGS.M1 }),
      mirror('M2', second!, { stops: LEGS.M2 }),
      mirror('M3', third!, { stops: LEGS.M3 }),
      { name: 'lens', kind: 'lens', leg: LEGS.lens, inset: 0 },
    ],
  };
}

/**
 * The same machine with one more tape on the bed, at this distance below the lens, mm. Its middle is where a nominal
 * beam would hit.
 */
export function withBed(layout: Layout, height: number): Layout {
  return { ...layout, elements: [...layout.elements, { name: 'bed', kind: 'station', leg: height, inset: 0 }] };
}

/** The machine and limits cells; lengths in the plan's units, bare, so that both ways of writing are used. */
export function machineCells(plan: Plan, limits: string): string {
  const length = (mm: number) => (plan.units === 'mm' ? String(mm) : String(mm / 25.4));
  const facing = plan.heads === 'behind' ? 1 : -1;
  const place = (right: number, up: number) =>
    plan.places === 'given' ? `{right: ${length(facing * right)}, up: ${length(up)}}` : '{}';
  const { screws, pivot, pitch, inward } = describedMount(plan);
  const stops = ({ near, far }: { near: number; far: number }) => `{near: ${length(near)}, far: ${length(far)}}`;
  const path = ['M1', 'M2', 'M3'].map((name, k) =>
    [
      `  ${name}:`,
      k === 0
        ? `    leg: ${length(LEGS.M1)}`
        : `    rides: ${k === 1 ? 'gantry' : 'head'}\n    stops: ${stops(k === 1 ? LEGS.M2 : LEGS.M3)}`,
      `    aperture: ${length(APERTURES[k]!)}`,
      `    sends: ${plan.sends[k]}`,
      '    mount: plate',
    ].join('\n'),
  );
  return [
    'machine: trial',
    `units: ${plan.units}`,
    'source:',
    '  wavelength: 10.6 um',
    `  fires: ${plan.fires}`,
    'path:',
    ...path,
    '  lens:',
    `    leg: ${length(LEGS.lens)}`,
    `    aperture: ${length(APERTURES[3]!)}`,
    '    focal: 50.8 mm',
    'mounts:',
    '  plate:',
    '    screws:',
    ...screws.map((screw) => `      ${screw.name}: ${place(screw.right, screw.up)}`),
    ...(pivot && plan.places === 'given' ? [`    pivot: ${place(pivot.right, pivot.up)}`] : []),
    pitch === PITCH ? '    thread: M4' : `    pitch: ${pitch} mm`,
    `    in: ${inward === 1 ? 'toward beam' : 'away from beam'}`,
    `    heads: ${plan.heads}`,
    `    locks: ${plan.locks ?? 'none'}`,
    `    doubt: ${plan.doubt} %`,
    '---',
    limits,
  ].join('\n');
}

/** The mount as the workbook describes it, correctly or not. */
function describedMount(
  plan: Plan,
): Pick<Mount, 'screws' | 'pivot'> & { readonly pitch: number; readonly inward: 1 | -1 } {
  const { screws, pivot } = mountOf(plan);
  const real = { screws, ...(pivot && { pivot }), pitch: PITCH as number, inward: plan.in };
  const wrong = {
    in: () => ({ inward: plan.in === 1 ? -1 : 1 }) as const,
    mirror: () => ({ screws: screws.map(negated), ...(pivot && { pivot: negated(pivot) }) }),
    swap: () => ({ screws: screws.map((screw) => ({ ...screw, name: EXCHANGED[screw.name] ?? screw.name })) }),
    pitch: () => ({ pitch: 2 * PITCH }),
  };
  return { ...real, ...(plan.wrongMount && wrong[plan.wrongMount]()) };
}

const EXCHANGED: Readonly<Record<string, string>> = { A: 'B', B: 'A' };

function negated<T extends { readonly right: number }>(place: T): T {
  return { ...place, right: -place.right };
}

/** The marks on every tape for these carriage positions, mm; null if the beam does not arrive. */
export function marksOf(
  layout: Layout,
  truth: Truth,
  carriages: Carriages,
): readonly ({ right: number; up: number } | null)[] {
  const setting = {
    tube: truth.tube,
    mirrors: layout.elements.map((_, k) => ({
      pose: { piston: 0, right: 0, up: 0 },
      shift: truth.shifts[k] ?? ([0, 0, 0] as const),
    })),
    apertures: truth.apertures,
  };
  const { rails, screws } = truth;
  return rails
    ? traceOnRails(rails, LEGS, layout, setting, screws, carriages)
    : refereeTrace(layout, setting, screws, carriages);
}

/**
 * The state after a screw was turned: the intended amount is `turns`; the tip advances by that times the gain of this
 * screw.
 */
export function withTurn(truth: Truth, mirror: number, screw: string, turns: number): Truth {
  const gain = truth.gains[mirror]?.[screw] ?? 1;
  const screws = truth.screws.map((one, k) =>
    k === mirror ? { ...one, [screw]: (one[screw] ?? 0) + gain * turns } : one,
  );
  return { ...truth, screws };
}

/** After a mirror was tilted by these slopes on its plate, seen from behind. */
export function withTilt(truth: Truth, plan: Plan, mirror: number, right: number, up: number): Truth {
  const by = turnsForTilt(plan, right, up);
  const screws = truth.screws.map((one, k) =>
    k === mirror
      ? { ...one, ...Object.fromEntries(Object.entries(by).map(([name, turns]) => [name, (one[name] ?? 0) + turns])) }
      : one,
  );
  return { ...truth, screws };
}

/** Positions of the first two screws, turns in, that give the plane these slopes on the plate; the third tip stays. */
export function turnsForTilt(plan: Plan, right: number, up: number): Readonly<Record<string, number>> {
  const { screws, pivot } = mountOf(plan);
  const third = pivot ?? screws[2]!;
  return Object.fromEntries(
    screws.slice(0, 2).map((screw) => {
      const height = right * (screw.right - third.right) + up * (screw.up - third.up);
      return [screw.name, height / (screw.pitch * screw.in)];
    }),
  );
}

/** Error of a shift by hand: mm across the beam that meets it, viewer's axes; a tube also turns, slopes. */
export interface Slip {
  readonly right: number;
  readonly up: number;
  readonly turnRight: number;
  readonly turnUp: number;
}

export const NO_SLIP: Slip = { right: 0, up: 0, turnRight: 0, turnUp: 0 };

/** The whole tube or one block (by element index, mirror and aperture with it) shifted, machine axes. */
export function withShift(
  truth: Truth,
  layout: Layout,
  element: number | 'tube',
  [x, y, z]: Vector,
  slip: Slip = NO_SLIP,
): Truth {
  if (element !== 'tube') {
    const arrives = element === 0 ? layout.fires : layout.elements[element - 1]!.sends!;
    const [sx, sy, sz] = acrossBeam(arrives, slip);
    const shifts = layout.elements.map((_, k): Vector => {
      const [ox, oy, oz] = truth.shifts[k] ?? [0, 0, 0];
      return k === element ? [ox + x + sx, oy + y + sy, oz + z + sz] : [ox, oy, oz];
    });
    return { ...truth, shifts };
  }
  const [right, up] = FRAMES[layout.fires];
  const along = (axis: Vector) => axis[0] * x + axis[1] * y + axis[2] * z;
  const { tube } = truth;
  return {
    ...truth,
    tube: {
      right: tube.right + along(right) + slip.right,
      up: tube.up + along(up) + slip.up,
      turnRight: tube.turnRight + slip.turnRight,
      turnUp: tube.turnUp + slip.turnUp,
    },
  };
}

/** A place across a beam, viewer's axes, as a vector of the machine. */
export function acrossBeam(runs: Direction, { right, up }: { readonly right: number; readonly up: number }): Vector {
  const [r, u] = FRAMES[runs];
  return [r[0] * right + u[0] * up, r[1] * right + u[1] * up, r[2] * right + u[2] * up];
}

/** The viewer's right and up for each firing direction, written out by hand. */
const FRAMES: Readonly<Record<Direction, readonly [right: Vector, up: Vector]>> = {
  left: [
    [0, 1, 0],
    [0, 0, 1],
  ],
  right: [
    [0, -1, 0],
    [0, 0, 1],
  ],
  front: [
    [-1, 0, 0],
    [0, 0, 1],
  ],
  rear: [
    [1, 0, 0],
    [0, 0, 1],
  ],
  up: [
    [-1, 0, 0],
    [0, 1, 0],
  ],
  down: [
    [1, 0, 0],
    [0, 1, 0],
  ],
};
