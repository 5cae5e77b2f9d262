/** Marks that contradict the log: they deviate from its prediction by more than chance. */
import { findingAt, lengthsIn, type Finding, type LogEntry, type StationReport } from '../model/index.ts';
import { runFilter, estimateOf, predictMark, type GateFailure, type LoggedReading } from '../estimate/index.ts';
import { SIGNIFICANT } from './last-entry.ts';
import { ellipse, NO_MOVE } from '../machine/index.ts';
import { markInWords, markWithUnits, bracketed, placeInWords } from '../words/index.ts';
import { meant, slipFacts, slips, type Point, type SlipFacts } from './slips.ts';
import type { Outcome } from './rule.ts';

export function unexpected(outcome: Outcome): Finding[] {
  const { state, entries } = outcome;
  const { contradictions, unexplained } = state.segment
    ? runFilter(state.segment)
    : { contradictions: [], unexplained: [] };
  const all = [
    ...contradictions.map((failure) => ({ ...failure, effect: USED, least: SIGNIFICANT })),
    ...unexplained.map((failure) => ({ ...failure, effect: SET_ASIDE, least: 0 })),
  ];
  return all
    .filter((one) => one.unmoved === undefined)
    .flatMap((one): Finding[] => {
      const logged = entries[one.moment.order];
      const report = outcome.verdicts.find(({ station }) => station.name === one.station)?.report;
      const worst = mostDeviating(one, one.least);
      if (!logged || !report || !worst) return [];
      const {
        reading,
        expected: { right, up, within },
      } = worst;
      const place = placeInWords(report.carriages, reading.at, reading.with);
      const facts = {
        station: report.name,
        place: bracketed(place),
        within: lengthsIn(report.frame.units).read(within),
        mark: markInWords(reading.right, reading.up, report.frame),
        expected: markInWords(right, up, report.frame),
        effect: one.effect,
        ...(isMoved(entries, one) ? slipFacts(undefined, '') : slipFactsOf(worst, report)),
      };
      return [findingAt(logged, reading.path, 'log.unexpected', facts)];
    });
}

const USED = 'The repeat confirms it, so earlier marks on this station and after it are stale.';
const SET_ASIDE = 'It is not used until this place is shot again.';

/** Whether both coordinates were read, on the station's own tape. */
function isMark(reading: LoggedReading): reading is LoggedReading & { readonly right: number; readonly up: number } {
  return reading.height === 0 && reading.right !== undefined && reading.up !== undefined;
}

/** Whether something was moved since the previous marks: then that is a more probable cause than a slip of the pen. */
function isMoved(entries: readonly LogEntry[], { moment, station }: GateFailure): boolean {
  const since = entries
    .slice(0, moment.order)
    .findLastIndex(({ entry }) => entry.kind === 'marks' && entry.station === station);
  return entries.slice(since + 1, moment.order).some(({ entry }) => entry.kind === 'adjust');
}

/** Fraction of the aperture's radius: nearer to the centre a mark may have moved as far as it is written. */
const FAR = 0.6;

function slipFactsOf(
  { reading, expected }: { readonly reading: Point; readonly expected: Expected },
  { frame, aperture }: StationReport,
): SlipFacts {
  if (Math.hypot(reading.right, reading.up) < FAR * (aperture / 2)) return slipFacts(undefined, '');
  const slip = slips(frame.units).find((one) => one.factor < 1 && fits(meant(reading, one), expected));
  const then = slip && meant(reading, slip);
  const slipFrame = { ...frame, ...(slip?.kind === 'unit' && { units: 'mm' as const }) };
  return slipFacts(slip, then ? markWithUnits(then.right, then.up, slipFrame) : '');
}

function fits({ right, up }: Point, expected: Expected): boolean {
  return Math.hypot(right - expected.right, up - expected.up) < FITS * expected.within;
}

/** The 95 % ellipse is at 2.4 standard deviations, the limit of chance at 3.5. */
const FITS = SIGNIFICANT / Math.sqrt(5.99);

interface Expected {
  readonly right: number;
  readonly up: number;
  /** mm, the longer half axis of the 95 % ellipse */
  readonly within: number;
}

/**
 * The mark with the largest deviation from its prediction, at least `least` standard uncertainties; undefined if no
 * single mark deviates so much. Other findings report marks that contradict each other, and marks outside the aperture.
 * Tapes on the bed have no position, and marks with one coordinate cannot be described.
 */
function mostDeviating(
  { before, readings }: GateFailure,
  least: number,
): { readonly reading: LoggedReading & Point; readonly expected: Expected } | undefined {
  const estimated = estimateOf(before);
  const off = readings
    .filter(isMark)
    .filter(({ station, right, up }) => Math.hypot(right, up) <= before.system.stations[station]!.element.aperture / 2)
    .flatMap((reading) => {
      const predicted = predictMark(estimated, reading, NO_MOVE);
      if (!predicted) return [];
      const { right, up, covariance } = predicted;
      const noise = reading.u ** 2;
      const [rightVariance, upVariance] = [predicted.rightVariance + noise, predicted.upVariance + noise];
      const within = ellipse([rightVariance, covariance, upVariance]).major;
      const away = Math.max(
        Math.abs(reading.right - right) / Math.sqrt(rightVariance),
        Math.abs(reading.up - up) / Math.sqrt(upVariance),
      );
      return away < least ? [] : [{ reading, expected: { right, up, within }, away }];
    });
  return off.reduce<(typeof off)[number] | undefined>(
    (most, one) => (most && most.away >= one.away ? most : one),
    undefined,
  );
}
