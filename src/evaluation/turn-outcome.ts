/**
 * The marks after an adjustment: predicted by the estimate just before they were shot, and as they came; while nothing
 * was shot yet, those that are needed to judge the station. Given at the last of several adjustments.
 */
import type { Axes, LogEntry, Mark, StationReport } from '../model/index.ts';
import { estimate, predictMark, type Estimate, type State } from '../estimate/index.ts';
import { ellipse, NO_MOVE, othersAt, placesNeeded, queryAt, stopAt, type Station } from '../machine/index.ts';
import { carriagesOf, frameOf } from '../verdict/index.ts';
import { behind, isBreak, movesBeam, movingCarriages, nextShot, stationNamed, unknownIn } from './turn-effect.ts';

/** The marks that show the effect of an adjustment, mm, viewer's frame. */
export interface TurnOutcome {
  readonly station: string;
  readonly frame: StationReport['frame'];
  readonly carriages: StationReport['carriages'];
  /** Screws with an unknown effect: then nothing is predicted. */
  readonly unknown: readonly string[];
  readonly isShot: boolean;
  /** The cell of the shot marks. */
  readonly cell?: number;
  readonly marks: readonly OutcomeMark[];
}

/** The mark at one place of the carriages. */
export interface OutcomeMark {
  readonly at: string | number;
  readonly with: Readonly<Record<string, string | number>>;
  /** Absent if the prediction is no narrower than the aperture. */
  readonly predicted?: Axes;
  /** Absent if it was not shot, or one of its coordinates was not read; `none`: the beam missed the tape. */
  readonly came?: Axes | 'none';
}

/** Undefined for any other entry, and for an adjustment that others follow before the marks. */
export function turnOutcome(
  entries: readonly LogEntry[],
  index: number,
  stateAt: (count: number) => State,
): TurnOutcome | undefined {
  const entry = entries[index]?.entry;
  if (entry?.kind !== 'adjust' || !movesBeam(entry)) return undefined;
  const before = stateAt(index);
  const { system } = before;
  if (!system) return undefined;
  const shot = nextShot(entries, index, entry.part, system);
  const station = shot ? stationNamed(system, shot.entry.station) : behind(system, entry.part);
  const estimated = station && estimate(stateAt(shot?.index ?? index + 1));
  if (!station || !estimated || hasFollower(entries, index, shot?.index)) return undefined;
  const unknown = unknownIn(entry, before);
  const places = shot
    ? shot.entry.shots
        .filter(({ height }) => height === 0)
        .map(({ carriages, marks }) => ({ carriages: movingCarriages(station, carriages), came: meanOf(marks) }))
    : placesNeeded(station).map(({ carriages }) => ({ carriages, came: undefined }));
  return {
    station: station.name,
    frame: frameOf(station),
    carriages: carriagesOf(station),
    unknown,
    isShot: shot !== undefined,
    ...(shot && { cell: entries[shot.index]!.cell }),
    marks: places.map(({ carriages, came }) => {
      const predicted = unknown.length > 0 ? undefined : predictedAt(estimated, station, carriages);
      const { own } = station;
      return {
        at: own ? stopAt(own, carriages[own.element]!) : 'here',
        with: othersAt(station, carriages),
        ...(predicted && { predicted }),
        ...(came && { came }),
      };
    }),
  };
}

/** Whether another adjustment follows before the marks, or before whatever ends the work. */
function hasFollower(entries: readonly LogEntry[], index: number, shot: number | undefined): boolean {
  const end = shot ?? entries.findIndex(({ entry }, k) => k > index && isBreak(entry.kind));
  return entries
    .slice(index + 1, end < 0 ? undefined : end)
    .some(({ entry }) => entry.kind === 'adjust' && movesBeam(entry));
}

function predictedAt(
  estimated: Estimate,
  station: Station,
  carriages: Readonly<Record<string, number>>,
): Axes | undefined {
  const predicted = predictMark(estimated, queryAt(station, carriages), NO_MOVE);
  if (!predicted) return undefined;
  const { right, up, rightVariance, upVariance, covariance } = predicted;
  const isUseful = ellipse([rightVariance, covariance, upVariance]).major < station.element.aperture / 2;
  return isUseful ? { right, up } : undefined;
}

function meanOf(marks: readonly Mark[]): Axes | 'none' | undefined {
  if (marks.length === 0) return undefined;
  if (marks.some(({ none }) => none)) return 'none';
  const read = marks.flatMap(({ right, up }) => (right === undefined || up === undefined ? [] : [{ right, up }]));
  const mean = (of: (mark: Axes) => number) => read.reduce((sum, mark) => sum + of(mark), 0) / read.length;
  return read.length === 0 ? undefined : { right: mean((mark) => mark.right), up: mean((mark) => mark.up) };
}
