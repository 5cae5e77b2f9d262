/** The target of a station: its marks of this session, the predicted next ones, and their places in the text. */
import { placeName, shortPlace, placeInWords } from '../../words/index.ts';
import type { SessionRound } from '../../evaluation/index.ts';
import { diameterOn, farthest, isHit } from '../../light/index.ts';
import type {
  Expected,
  Machine,
  MarkAge,
  Reading,
  StationReport,
  TargetFigure,
  TargetHalf,
  TargetMark,
  TargetPlace,
} from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { machineAt } from '../book/machine-at.ts';
import { stateInWords } from '../words/station-words.ts';

/** Which marks the target shows; by default those of now. */
export interface TargetOptions {
  /** The log after this number of entries; absent: now, with its latest date as today. */
  readonly count?: number;
  /** The station's report, if it is judged by other limits than at the time. */
  readonly report?: StationReport;
  /** From 1; absent or unknown: the last. */
  readonly round?: number | undefined;
  /** The marks to show as predicted, instead of those after the advised step. */
  readonly expected?: readonly Expected[] | undefined;
}

/** Undefined without a machine, or if the station is not on its path. */
export function targetFigure(
  book: Book,
  station: string,
  { count: past, report: judged, round, expected }: TargetOptions = {},
): TargetFigure | undefined {
  const count = past ?? book.workbook.entries.length;
  const report =
    judged ??
    (past === undefined
      ? book.evaluation().stations.find(({ name }) => name === station)
      : book.log.report(station, past));
  if (!report) return undefined;
  const rounds = book.log.rounds(station, count);
  const selected = rounds.findIndex(({ number }) => number === round);
  const isPast = selected >= 0 && selected < rounds.length - 1;
  const shown = isPast ? rounds.slice(0, selected + 1) : rounds;
  const present = isPast ? rounds[selected]!.report : report;
  const isNow = !isPast && (past === undefined || past === book.workbook.entries.length);
  const machine = machineAt(book, book.workbook.entries[count - 1]?.cell ?? -1);
  return drawn(present, shown.slice(0, -1), {
    machine,
    first: rounds[0]?.number,
    round: shown.at(-1)?.number,
    rounds: rounds.at(-1)?.number ?? 0,
    expected: isNow ? (expected ?? book.evaluation().expected).filter((one) => one.station === station) : [],
  });
}

/** One station's tape from a report, without earlier rounds. */
export function targetOf(report: StationReport, machine: Machine): TargetFigure {
  return drawn(report, [], { machine, rounds: 1, expected: [] });
}

interface About {
  readonly machine: Machine | undefined;
  /** Numbers of the first round that can be shown, the one shown, and the last; default 1. */
  readonly first?: number | undefined;
  readonly round?: number | undefined;
  readonly rounds: number;
  readonly expected: readonly Expected[];
}

function drawn(
  report: StationReport,
  before: readonly SessionRound[],
  { machine, first = 1, round: number = 1, rounds, expected }: About,
): TargetFigure {
  const places = new Places(report);
  const limit = report.requirements.find((one) => one.limit === 'centre')?.max;
  const round = report.readings.length === 0 ? 0 : number;
  const onTape = report.readings.filter(({ height }) => height === 0);
  const age = report.staleSince === undefined ? 'fresh' : 'stale';
  const worst = farthest(onTape.filter(isHit));
  const beam = machine && worst && diameterOn(machine, report.name, worst.carriages);
  const earlier = before.flatMap((one) =>
    one.readings.flatMap((reading) => markOf(reading, places, one.number, 'earlier')),
  );
  for (const { at, with: others } of onTape) places.of(at, others);
  return {
    kind: 'target',
    station: report.name,
    frame: report.frame,
    state: report.state,
    words: stateInWords(report),
    aperture: report.aperture,
    ...(limit !== undefined && { limit }),
    ...(beam !== undefined && { beam }),
    rounds: round === 0 ? 0 : rounds,
    first: round === 0 ? 0 : first,
    round,
    marks: [...earlier, ...onTape.flatMap((reading) => markOf(reading, places, round, age))],
    halves: onTape.flatMap((reading) => halfOf(reading, places, age)),
    missed: onTape
      .filter(({ none }) => none)
      .map(({ at, with: others, cell, path }) => ({ place: places.of(at, others), cell, path })),
    expected: expected.map(({ at, with: others, right, up, ellipse }) => ({
      place: places.of(at, others),
      right,
      up,
      ellipse,
    })),
    places: places.all,
  };
}

function markOf(
  { at, with: others, height, none, right, up, u, cell, path }: Reading,
  places: Places,
  round: number,
  age: MarkAge,
): TargetMark[] {
  if (height > 0 || none || right === undefined || up === undefined) return [];
  return [{ place: places.of(at, others), round, age, right, up, u, cell, path }];
}

function halfOf(
  { at, with: others, none, right, up, u, cell, path }: Reading,
  places: Places,
  age: TargetHalf['age'],
): TargetHalf[] {
  if (none || (right === undefined) === (up === undefined)) return [];
  const part = right !== undefined ? ({ read: 'right', value: right } as const) : ({ read: 'up', value: up! } as const);
  return [{ place: places.of(at, others), age, ...part, u, cell, path }];
}

/** Numbered in order of appearance, so that a place keeps its letter through all rounds. */
class Places {
  readonly all: TargetPlace[] = [];
  readonly #carriages: StationReport['carriages'];

  constructor({ carriages }: StationReport) {
    this.#carriages = carriages;
  }

  of(at: string | number, others: Readonly<Record<string, string | number>>): number {
    const short = shortPlace(this.#carriages, at, others);
    const known = this.all.findIndex((place) => place.brief === short);
    if (known >= 0) return known;
    return (
      this.all.push({
        brief: short,
        full: placeInWords(this.#carriages, at, others),
        ...placeName(this.#carriages, at, others),
      }) - 1
    );
  }
}
