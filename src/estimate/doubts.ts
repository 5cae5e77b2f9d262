/**
 * What keeps the marks from being taken at their word: a mark that nothing explains, a turn that moved nothing, marks of one
 * place that differ, a reading worse than declared, a mount that turns otherwise than written. Advice deals with these before
 * it moves anything; nothing is within while one of the first three stands.
 */
import { runFilter } from './filter.ts';
import type { FilterState, Discrepancy, GateFailure, Turn } from './filter-state.ts';
import { sameCarriages, type Alternative } from '../machine/index.ts';
import { likelyCause, partName } from './scatter.ts';
import { freshReadings, type State } from './state.ts';
import type { LoggedReading } from './logged-reading.ts';

export interface Doubts {
  /** Marks set aside until they are shot again, those of the first station first. */
  readonly unexplained: readonly GateFailure[];
  readonly scattering?: Scattering;
  /** Turns that moved nothing, and where that was seen; until that station is shot again. */
  readonly unmoved?: {
    readonly turns: readonly Turn[];
    readonly failure: GateFailure /** How often turns of such a mirror have moved nothing. */;
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
  readonly discrepancy: Discrepancy;
  /** The farthest place of that station with a mark: there a loose part shows most. */
  readonly farthest: LoggedReading;
  /** How many marks there are of the place with more of them, of these two. */
  readonly marks: number;
}

const NO_DOUBTS: Doubts = { unexplained: [], noise: 1 };

export function doubts(state: State): Doubts {
  if (!state.segment || !state.system) return NO_DOUBTS;
  const filtered = runFilter(state.segment);
  const fresh = state.system.stations.map((station) => freshReadings(state, station));
  const isValid = (one: LoggedReading) =>
    fresh[one.station]?.some(({ order, path }) => order === one.order && path === one.path) === true;
  const unexplained = filtered.unexplained
    .map((failure) => ({ ...failure, readings: failure.readings.filter(isValid) }))
    .filter(({ readings }) => readings.length > 0)
    .toSorted((one, other) => one.readings[0]!.station - other.readings[0]!.station);
  const scattering = findScattering(filtered, fresh, isValid);
  const unmoved = findUnmoved(filtered, fresh);
  return {
    unexplained,
    noise: filtered.noise,
    ...(scattering && { scattering }),
    ...(unmoved && { unmoved }),
    ...(filtered.mount && { mount: { ...filtered.mount, responses: filtered.responses } }),
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

function findScattering(
  filtered: FilterState,
  fresh: readonly (readonly LoggedReading[])[],
  isValid: (one: LoggedReading) => boolean,
): Scattering | undefined {
  const discrepancy = filtered.discrepancies
    .filter(({ earlier, later: other }) => isValid(earlier) && isValid(other))
    .at(-1);
  if (!discrepancy) return undefined;
  const { system } = filtered.distribution;
  const { loose, parts } = likelyCause(filtered.evidence, system);
  const readings = fresh[discrepancy.earlier.station]!.filter(({ height, none }) => height === 0 && !none);
  const farthest = readings.reduce((most, one) => (totalLeg(one) > totalLeg(most) ? one : most), discrepancy.later);
  const marks = Math.max(
    ...[discrepancy.later, farthest].map((place) =>
      readings
        .filter((one) => sameCarriages(one.carriages, place.carriages))
        .reduce((sum, { count }) => sum + count, 0),
    ),
  );
  if (loose < (marks > PAIR ? HARDLY : HARDLY_YET)) return undefined;
  const rounds = new Set(
    filtered.discrepancies
      .filter(({ earlier: one }) => one.station === discrepancy.earlier.station)
      .map(({ moment }) => moment.order),
  ).size;
  return {
    discrepancy,
    farthest,
    marks,
    ...((loose > LOOSE || (loose > SAFER && (marks >= ENOUGH || rounds >= ROUNDS))) && {
      loose: parts.map((part) => partName(system, part)),
    }),
  };
}

/** mm of travel out to where the carriages stand. */
function totalLeg({ carriages }: LoggedReading): number {
  return Object.values(carriages).reduce((sum, leg) => sum + leg, 0);
}

function findUnmoved({ contradictions }: FilterState, fresh: readonly (readonly LoggedReading[])[]): Doubts['unmoved'] {
  const last = contradictions.at(-1);
  if (!last?.unmoved) return undefined;
  const readings = fresh[last.readings[0]!.station] ?? [];
  const times = contradictions.filter((one) =>
    one.unmoved?.some(({ part }) => last.unmoved!.some((turn) => turn.part === part)),
  ).length;
  // Checked and shot again it may have been the nut; the second time it lasts until something is done to the mount.
  const isOpen =
    readings.length > 0 &&
    readings.every(({ order }) => (times < TOO_OFTEN ? order === last.moment.order : order >= last.moment.order));
  return isOpen ? { turns: last.unmoved, failure: last, times } : undefined;
}

/** After so many turns without effect the mount itself is repaired. */
export const TOO_OFTEN = 2;

/** Whether a reading is used: neither set aside, nor misread, nor contradicted by later marks. */
export function isUsed(
  { unexplained, misread }: Pick<FilterState, 'unexplained' | 'misread'>,
  { order, path }: LoggedReading,
): boolean {
  return ![...misread, ...unexplained.flatMap(({ readings }) => readings)].some(
    (one) => one.order === order && one.path === path,
  );
}
