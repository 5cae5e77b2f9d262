/**
 * Worlds that differ from the program's model, each in one thing: hands, tape, screws, rails, lock nuts, or how the
 * workbook describes the mounts. Amounts are standard deviations unless stated. mm, rad, turns (positive = in).
 */
import { random, type Random } from './random.ts';
import type { Rails } from './rails.ts';
import { ordinary, type Workshop } from './workshop.ts';
import { withTurn, type Plan, type Truth, type WrongMount } from './world.ts';

export interface World {
  /** The requested name with its value: `noise=0.4`. */
  readonly name: string;
  readonly wrongMount?: WrongMount;
  readonly locks?: 'nut';
  /** Relative standard deviation of the effect of a turn; absent: the usual one. */
  readonly gain?: number;
  readonly rails?: (draw: Random) => Rails;
  /**
   * @param draw random numbers of the ordinary workshop @param faults random numbers of the faults that this world adds
   */
  readonly workshop: (draw: Random, faults: Random) => Workshop;
}

type Difference = Omit<World, 'name' | 'workshop'> & Partial<Pick<World, 'workshop'>>;

/** A kind of world: the values that `all` runs, the first of which is the default, and the world of any value. */
interface Kind {
  readonly values: readonly string[];
  make(value: string): Difference;
}

const amount = (values: readonly string[], make: (amount: number) => Difference): Kind => ({
  values,
  make: (value) => make(positive(value)),
});
const single = (difference: Difference): Kind => ({
  values: [''],
  make(value) {
    if (value !== '') throw new Error(`this world takes no value, so not \`${value}\``);
    return difference;
  },
});

const KINDS: Readonly<Record<string, Kind>> = {
  base: single({}),
  /** mm per axis of each mark, before it is read to the step. */
  noise: amount(['0.4', '0.58'], (noise) => ({ workshop: (draw) => ordinary(draw, noise) })),
  /** Fraction of marks that are outliers. */
  outliers: amount(['0.05', '0.01'], (share) => ({
    workshop: (draw, faults) => withOutliers(ordinary(draw), faults, share),
  })),
  /** Turns smaller than this have no effect. */
  stiction: amount(['0.0625'], (least) => ({ workshop: (draw) => withStiction(ordinary(draw), least) })),
  /** Turns that are lost at each reversal. */
  backlash: amount(['0.03125'], (play) => ({ workshop: (draw) => withBacklash(ordinary(draw), play) })),
  gain: amount(['0.25'], (gain) => ({ gain })),
  /** mm by which each rail sags in the middle. */
  bow: amount(['2'], (sag) => ({ rails: () => ({ sag, yaw: 0 }) })),
  /** mrad a metre by which the gantry yaws along its travel, one way or the other. */
  rack: amount(['6'], (rate) => ({ rails: (draw) => ({ sag: 0, yaw: draw.choose([-1, 1]) * rate * MRAD_A_METRE }) })),
  /** Standard deviation of the positions of M1's tips from shot to shot, turns. */
  loose: amount(['0.05'], (turns) => ({ workshop: (draw, faults) => withLooseMirror(ordinary(draw), faults, turns) })),
  wrong: { values: ['in', 'mirror', 'swap', 'pitch'], make: (value) => ({ wrongMount: wrongMountOf(value) }) },
  nuts: single({ locks: 'nut', workshop: (draw, faults) => withNuts(ordinary(draw), faults) }),
};

const MRAD_A_METRE = 1e-6;

/** In the order in which they are printed. */
export const WORLDS: readonly string[] = Object.entries(KINDS).flatMap(([kind, { values }]) =>
  values.map((value) => nameOf(kind, value)),
);

/** @param spec `NAME` or `NAME=VALUE` */
export function worldOf(spec: string): World {
  const [, name, given] = /^([a-z]+)(?:=(.+))?$/.exec(spec) ?? [];
  const kind = name !== undefined && Object.hasOwn(KINDS, name) ? KINDS[name] : undefined;
  if (!kind) throw new Error(`no world is called \`${spec}\`; there are ${WORLDS.join(', ')}`);
  const value = given ?? kind.values[0]!;
  return { name: nameOf(name!, value), workshop: (draw) => ordinary(draw), ...kind.make(value) };
}

function nameOf(kind: string, value: string): string {
  return value === '' ? kind : `${kind}=${value}`;
}

function positive(value: string): number {
  const number = Number(value);
  if (!(number > 0)) throw new Error(`a world's value is a number above 0, not \`${value}\``);
  return number;
}

const WRONG: readonly WrongMount[] = ['in', 'mirror', 'swap', 'pitch'];

function wrongMountOf(value: string): WrongMount {
  const result = WRONG.find((one) => one === value);
  if (result === undefined) throw new Error(`\`wrong\` is ${WRONG.join(', ')}, not \`${value}\``);
  return result;
}

/** The workbook's plan and the hidden start of a machine of this world. */
export function inWorld(
  { wrongMount, locks, rails }: World,
  plan: Plan,
  start: Truth,
  draw: Random,
): { readonly plan: Plan; readonly start: Truth } {
  return {
    plan: { ...plan, ...(wrongMount && { wrongMount }), ...(locks && { locks }) },
    start: { ...start, ...(rails && { rails: rails(draw) }) },
  };
}

/** Faults have their own random numbers, so that the errors of hand work of a machine are the same in every world. */
export function workshopIn(world: World, seed: number): Workshop {
  return world.workshop(random(seed), random(seed ^ 0x5bd1e995));
}

/** mm per axis by which half of the outliers are moved; the other half are mirrored left to right. */
const ASTRAY = 4;

function withOutliers(workshop: Workshop, faults: Random, share: number): Workshop {
  return {
    ...workshop,
    read(mark) {
      if (faults.uniform() >= share) return workshop.read(mark);
      if (faults.uniform() < 0.5) return workshop.read({ ...mark, right: -mark.right });
      return workshop.read({ right: mark.right + ASTRAY * faults.normal(), up: mark.up + ASTRAY * faults.normal() });
    },
  };
}

function withStiction(workshop: Workshop, least: number): Workshop {
  return { ...workshop, turned: (turns, screw) => (Math.abs(turns) < least ? 0 : workshop.turned(turns, screw)) };
}

/** A screw first moves through its play, then the tip follows; the very first turn finds no play. */
function withBacklash(workshop: Workshop, play: number): Workshop {
  const places = new Map<string, number>();
  return {
    ...workshop,
    turned(meant, screw) {
      const turns = workshop.turned(meant, screw);
      const from = places.get(screw) ?? (turns > 0 ? play : 0);
      const to = Math.min(play, Math.max(0, from + turns));
      places.set(screw, to);
      return turns - (to - from);
    },
  };
}

function withLooseMirror(workshop: Workshop, faults: Random, turns: number): Workshop {
  return {
    ...workshop,
    fired: (truth) =>
      ['A', 'B', 'C'].reduce((sofar, screw) => withTurn(sofar, 0, screw, turns * faults.normal()), truth),
  };
}

/** Slopes of a mirror's plate, per axis. */
const LOCK_TILT = 0.0005;

function withNuts(workshop: Workshop, faults: Random): Workshop {
  return { ...workshop, lockTilt: () => ({ right: LOCK_TILT * faults.normal(), up: LOCK_TILT * faults.normal() }) };
}
