/**
 * Doubts about the marks: an unexplained mark, a turn without effect, marks of one place that differ, a reading worse
 * than declared, a mount that responds otherwise than described. Advice settles these before it moves anything, and no
 * station is within while one of the first three is open.
 */
import { runFilter } from './filter.ts';
import type { FilterState, Discrepancy, GateFailure, Turn } from './filter-state.ts';
import { sameCarriages, type Alternative } from '../machine/index.ts';
import { likelyCause, noEvidence, partName } from './scatter.ts';
import { freshReadings, type State } from './state.ts';
import type { LoggedReading } from './logged-reading.ts';

/** Open doubts at a state of the log. */
export interface Doubts {
  /** Marks set aside until they are shot again, those of the first station first. */
  readonly unexplained: readonly GateFailure[];
  readonly scattering?: Scattering;
  /** Turns without effect, until the station that showed it is shot again. */
  readonly unmoved?: {
    readonly turns: readonly Turn[];
    readonly failure: GateFailure;
    /** Number of times that turns of such a mirror had no effect. */
    readonly times: number;
  };
  /** Factor on the declared uncertainty of reading. */
  readonly noise: number;
  readonly mount?: Alternative & { readonly responses: number };
}

/** Marks of one place that differ by more than reading explains. */
export interface Scattering {
  /**
   * The loose part is one of these, the most probable first; absent while the marks do not show whether a part is
   * loose.
   */
  readonly loose?: readonly string[];
  /** The two marks, and the place where they differ. */
  readonly discrepancy: Discrepancy;
  /** The place of that station with the longest leg that has a mark: a loose part shows most there. */
  readonly farthest: LoggedReading;
  /** Number of marks at the one of these two places that has more. */
  readonly marks: number;
}

const NO_DOUBTS: Doubts = { unexplained: [], noise: 1 };

/** Lists what is in doubt at a state of the log; nothing without a machine. */
export function doubts(state: State): Doubts {
  if (!state.segment || !state.system) return NO_DOUBTS;
  const filtered = runFilter(state.segment);
  const fresh = state.system.stations.map((station) => freshReadings(state, station));
  const isValid = (reading: LoggedReading) =>
    fresh[reading.station]?.some(({ order, path }) => order === reading.order && path === reading.path) === true;
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

/** Above LOOSE a part is loose; below HARDLY the scatter has another cause. In between the place is shot again. */
const LOOSE = 0.99;
const HARDLY = 0.05;
/** HARDLY before the place was shot more than twice: the first repeat is cheap. */
const HARDLY_YET = 0.00125;
/** Number of marks of a place that has two marks, which differ. */
const PAIR = 2;
/** From this number of marks of one place on it is safer to inspect than to shoot again. */
const ENOUGH = 9;
/** The same for marks of one station that differed in this number of cells. */
const ROUNDS = 3;
/** Probability of a loose part from which on these counts apply. */
const SAFER = 0.1;

/**
 * The probability that some part is loose, from the marks since the machine was described or changed; and whether they
 * make it more probable than it is of any machine.
 */
export function looseness({ segment }: State): { readonly probability: number; readonly isSuspected: boolean } {
  if (!segment) return { probability: 0, isSuspected: false };
  const {
    evidence,
    distribution: { system },
  } = runFilter(segment);
  const probability = likelyCause(evidence, system).loose;
  return { probability, isSuspected: probability > likelyCause(noEvidence(system), system).loose };
}

function findScattering(
  filtered: FilterState,
  fresh: readonly (readonly LoggedReading[])[],
  isValid: (reading: LoggedReading) => boolean,
): Scattering | undefined {
  const discrepancy = filtered.discrepancies
    .filter(({ earlier, later: other }) => isValid(earlier) && isValid(other))
    .at(-1);
  if (!discrepancy) return undefined;
  const { system } = filtered.distribution;
  const { loose, parts } = likelyCause(filtered.evidence, system);
  const readings = fresh[discrepancy.earlier.station]!.filter(({ height, none }) => height === 0 && !none);
  const farthest = readings.reduce(
    (most, reading) => (totalLeg(reading) > totalLeg(most) ? reading : most),
    discrepancy.later,
  );
  const marks = Math.max(
    ...[discrepancy.later, farthest].map((place) =>
      readings
        .filter((reading) => sameCarriages(reading.carriages, place.carriages))
        .reduce((sum, { count }) => sum + count, 0),
    ),
  );
  if (loose < (marks > PAIR ? HARDLY : HARDLY_YET)) return undefined;
  const rounds = new Set(
    filtered.discrepancies
      .filter(({ earlier: reading }) => reading.station === discrepancy.earlier.station)
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

/** Sum of the legs of all carriages, mm. */
function totalLeg({ carriages }: LoggedReading): number {
  return Object.values(carriages).reduce((sum, leg) => sum + leg, 0);
}

function findUnmoved({ contradictions }: FilterState, fresh: readonly (readonly LoggedReading[])[]): Doubts['unmoved'] {
  const last = contradictions.at(-1);
  if (!last?.unmoved) return undefined;
  const readings = fresh[last.readings[0]!.station] ?? [];
  const times = contradictions.filter((failure) =>
    failure.unmoved?.some(({ part }) => last.unmoved!.some((turn) => turn.part === part)),
  ).length;
  // After a check and a repeat the cause may have been the nut. The second time the doubt stays open until something is
  // done to the mount.
  const isOpen =
    readings.length > 0 &&
    readings.every(({ order }) => (times < TOO_OFTEN ? order === last.moment.order : order >= last.moment.order));
  return isOpen ? { turns: last.unmoved, failure: last, times } : undefined;
}

/** From this number of turns without effect on, the mount itself is repaired. */
export const TOO_OFTEN = 2;

/** Whether a reading enters the estimate: it is neither set aside nor misread. */
export function isUsed(
  { unexplained, misread }: Pick<FilterState, 'unexplained' | 'misread'>,
  { order, path }: LoggedReading,
): boolean {
  return ![...misread, ...unexplained.flatMap(({ readings }) => readings)].some(
    (reading) => reading.order === order && reading.path === path,
  );
}
