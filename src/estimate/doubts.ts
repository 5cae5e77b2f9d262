/**
 * What keeps the marks from being taken at their word: a mark that nothing explains, a turn that moved nothing, marks of one
 * place that differ, a reading worse than declared, a mount that turns otherwise than written. Advice deals with these before
 * it moves anything; nothing is within while one of the first three stands.
 */
import { account } from './account.ts';
import type { Account, Apart, Odd, Turn } from './account-types.ts';
import { sameCarriages, type Alternative } from '../machine/index.ts';
import { causeOf, nameOf } from './scatter.ts';
import { freshReadings, type State } from './state.ts';
import type { Taken } from './taken.ts';

export interface Doubts {
  /** Marks set aside until they are shot again, those of the first station first. */
  readonly unexplained: readonly Odd[];
  readonly scattering?: Scattering;
  /** Turns that moved nothing, and where that was seen; until that station is shot again. */
  readonly unmoved?: {
    readonly turns: readonly Turn[];
    readonly odd: Odd /** How often turns of such a mirror have moved nothing. */;
    readonly times: number;
  };
  /** Factor on the declared uncertainty of reading. */
  readonly noise: number;
  readonly mount?: Alternative & { readonly responses: number };
}

/** Marks of one place that differ by more than reading explains. */
export interface Scattering {
  /** What is loose, one of these, the likeliest first; absent while the marks do not tell whether a part is. */
  readonly loose?: readonly string[];
  /** What stands first, and the place where the scatter was seen. */
  readonly apart: Apart;
  /** The farthest place of that station with a mark: there a loose part shows most. */
  readonly farthest: Taken;
  /** How many marks there are of the place with more of them, of these two. */
  readonly marks: number;
}

const NO_DOUBTS: Doubts = { unexplained: [], noise: 1 };

export function doubts(state: State): Doubts {
  if (!state.chapter || !state.system) return NO_DOUBTS;
  const known = account(state.chapter);
  const fresh = state.system.stations.map((station) => freshReadings(state, station));
  const holds = (one: Taken) =>
    fresh[one.station]?.some(({ order, path }) => order === one.order && path === one.path) === true;
  const unexplained = known.unexplained
    .map((odd) => ({ ...odd, readings: odd.readings.filter(holds) }))
    .filter(({ readings }) => readings.length > 0)
    .toSorted((one, other) => one.readings[0]!.station - other.readings[0]!.station);
  const scattering = scatteringOf(known, fresh, holds);
  const unmoved = unmovedOf(known, fresh);
  return {
    unexplained,
    noise: known.noise,
    ...(scattering && { scattering }),
    ...(unmoved && { unmoved }),
    ...(known.mount && { mount: { ...known.mount, responses: known.responses } }),
  };
}

/** Above this probability a part is loose; below that the scatter has another cause. Between the two the place is shot again. */
const LOOSE = 0.99;
const HARDLY = 0.05;
/** The same before the place was shot more than twice: the first repeat is cheap. */
const HARDLY_YET = 0.00125;
/** Marks of a place that differ and no more. */
const PAIR = 2;
/** After as many marks of one place it is safer to look than to shoot again. */
const ENOUGH = 9;
/** Or after marks of one station that differed in this number of cells. */
const ROUNDS = 3;
/** From this probability on. */
const SAFER = 0.1;

function scatteringOf(
  known: Account,
  fresh: readonly (readonly Taken[])[],
  holds: (one: Taken) => boolean,
): Scattering | undefined {
  const apart = known.apart.filter(({ one, other }) => holds(one) && holds(other)).at(-1);
  if (!apart) return undefined;
  const { system } = known.belief;
  const { loose, parts } = causeOf(known.evidence, system);
  const here = fresh[apart.one.station]!.filter(({ height, none }) => height === 0 && !none);
  const farthest = here.reduce((most, one) => (legsOf(one) > legsOf(most) ? one : most), apart.other);
  const marks = Math.max(
    ...[apart.other, farthest].map((place) =>
      here.filter((one) => sameCarriages(one.carriages, place.carriages)).reduce((sum, { count }) => sum + count, 0),
    ),
  );
  if (loose < (marks > PAIR ? HARDLY : HARDLY_YET)) return undefined;
  const rounds = new Set(
    known.apart.filter(({ one }) => one.station === apart.one.station).map(({ moment }) => moment.order),
  ).size;
  return {
    apart,
    farthest,
    marks,
    ...((loose > LOOSE || (loose > SAFER && (marks >= ENOUGH || rounds >= ROUNDS))) && {
      loose: parts.map((part) => nameOf(system, part)),
    }),
  };
}

/** mm of travel out to where the carriages stand. */
function legsOf({ carriages }: Taken): number {
  return Object.values(carriages).reduce((sum, leg) => sum + leg, 0);
}

function unmovedOf({ odd }: Account, fresh: readonly (readonly Taken[])[]): Doubts['unmoved'] {
  const last = odd.at(-1);
  if (!last?.unmoved) return undefined;
  const here = fresh[last.readings[0]!.station] ?? [];
  const times = odd.filter((one) =>
    one.unmoved?.some(({ part }) => last.unmoved!.some((turn) => turn.part === part)),
  ).length;
  // Checked and shot again it may have been the nut; the second time it lasts until something is done to the mount.
  const stands =
    here.length > 0 &&
    here.every(({ order }) => (times < TOO_OFTEN ? order === last.moment.order : order >= last.moment.order));
  return stands ? { turns: last.unmoved, odd: last, times } : undefined;
}

/** After so many turns without effect the mount itself is repaired. */
export const TOO_OFTEN = 2;

/** Whether a reading is used: neither set aside, nor misread, nor contradicted by later marks. */
export function isUsed(
  { unexplained, misread }: Pick<Account, 'unexplained' | 'misread'>,
  { order, path }: Taken,
): boolean {
  return ![...misread, ...unexplained.flatMap(({ readings }) => readings)].some(
    (one) => one.order === order && one.path === path,
  );
}
