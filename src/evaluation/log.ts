/**
 * A log that is folded once, and after an edit from the edited entry. It caches every 32nd state and those requested
 * recently, so that results which states have in common are computed once.
 */
import type {
  Entry,
  Evaluation,
  Expected,
  Finding,
  Limits,
  LogEntry,
  PathFigure,
  StationReport,
  TriedTurn,
} from '../model/index.ts';
import type { Matrix } from '../statistics/index.ts';
import { runFilter, estimate, carriedOn, step, initialState, driftCovariance, type State } from '../estimate/index.ts';
import { beamPath, type WidthOn } from './beam-path.ts';
import { evaluated } from './evaluated.ts';
import { Outcomes } from './outcomes.ts';
import { stationVerdict } from '../verdict/index.ts';
import { roundsOf, type Moments, type SessionRound } from './rounds.ts';
import { entryRules, latestRules } from '../rules/index.ts';
import { station } from '../machine/index.ts';
import { turnEffect, type TurnEffect } from './turn-effect.ts';
import { turnOutcome, type TurnOutcome } from './turn-outcome.ts';
import { visitOf, type StationVisit, type VisitSpan } from './visit.ts';
import { outlook, screwsBefore, whatIf, type Outlook } from './what-if.ts';

/** A log while it is edited. */
export interface Log {
  /** Replaces the entries, in file order. Those before the first difference stay folded. */
  replace(entries: readonly LogEntry[]): void;
  /** Number of folded entries. */
  readonly folded: number;
  /** Whether all are folded, and every ended visit is judged: then findings are available. */
  readonly isDone: boolean;
  /** Folds and judges until `enough` returns true, a few entries at least. Returns whether it is done. */
  advance(enough: () => boolean): boolean;
  /** Folds all entries; ended visits are judged when their findings are requested. */
  fold(): void;
  /**
   * The evaluation after the last entry, or after the first `count`, on the latest date among them. Each part is
   * computed when it is read. Findings are those of every visit at its end. Its sentences refer to cells by index
   * (`cellsInWords`).
   */
  evaluation(count?: number): Evaluation;
  /**
   * The same for a visit that ends here, as it is judged permanently: time counts only up to the last cell that
   * measures or moves.
   */
  judged(count?: number): Evaluation;
  /** The findings, of ended visits only if they end behind the entry `from`: judging a visit takes a while. */
  findings(from: number): readonly Finding[];
  /** One station alone, after the first `count` entries; undefined without a machine or such a station. */
  report(name: string, count: number): StationReport | undefined;
  /** The rounds of a station in the session of the entry before `count`, oldest first. */
  rounds(name: string, count: number): readonly SessionRound[];
  /** A station as found and as left in a visit, and what moved its beam before and after. */
  visit(name: string, visit: VisitSpan): StationVisit;
  /**
   * Covariance of the drift in a day of the marks of a station, mm², with the carriages in these places; right, up,
   * right, up …
   */
  driftCovariance(name: string, settings: readonly Readonly<Record<string, number>>[]): Matrix | undefined;
  /** Predicted marks of a station after hypothetical turns, at the present state of the log. */
  whatIf(name: string, turns: readonly TriedTurn[]): readonly Expected[];
  /** What the limits of a station are predicted to be met by, after hypothetical turns; undefined without limits. */
  outlook(name: string, turns: readonly TriedTurn[]): Outlook | undefined;
  /**
   * The beam through the machine at the present state of the log, with carriages at these legs (mm, by the element that
   * rides); undefined without a machine.
   */
  beamPath(legs: Readonly<Record<string, number>>, widthOn: WidthOn): Omit<PathFigure, 'kind'> | undefined;
  /** Screws of the mirrors before a station, the nearest mirror first. */
  screwsBefore(name: string): readonly { readonly part: string; readonly screw: string }[];
  /**
   * The predicted and the measured effect of the adjustment at this index on the marks. Undefined for any other entry.
   */
  turnEffect(index: number): TurnEffect | undefined;
  /** The marks predicted and shot after the adjustment at this index; undefined for any other entry. */
  turnOutcome(index: number): TurnOutcome | undefined;
}

/** Entries between two cached states: one of a large machine takes some kilobytes. */
const EVERY = 32;
/** Size of the caches: more entries than a window shows. */
const LATELY = 128;
/** Entries between two checks of the clock. */
const AT_ONCE = 4;

/** An empty log. */
export function createLog(): Log {
  return new FoldedLog();
}

class FoldedLog implements Log {
  private entries: readonly LogEntry[] = [];
  /** By the number of folded entries. */
  private readonly states = new Map<number, State>();
  private readonly recent = new Map<number, State>();
  private readonly evaluations = new Map<string, Evaluation>();
  private readonly outcomes = new Outcomes((count) => this.stateAt(count));
  /** Reports of cached states, by station. */
  private readonly reports = new WeakMap<State, ReadonlyMap<string, StationReport>>();
  private readonly findingsByEntry: (readonly Finding[])[] = [];
  private readonly initial = initialState();
  private state = this.initial;
  private readonly moments: Moments = {
    state: (at) => this.stateAt(at),
    report: (of, at, limits) => this.report(of, at, limits),
  };

  replace(entries: readonly LogEntry[]): void {
    const { same, reworded } = this.compare(entries);
    if (same === entries.length && same === this.entries.length && reworded.length === 0) return;
    this.evaluations.clear();
    this.outcomes.replace(entries, same);
    if (same === entries.length && same === this.entries.length) this.entries = entries;
    else this.resume(entries, same);
    for (const index of reworded) {
      if (index < this.findingsByEntry.length)
        this.findingsByEntry[index] = this.findingsAt(index, this.stateAt(index));
      this.outcomes.reword(index);
    }
  }

  private resume(entries: readonly LogEntry[], same: number): void {
    const from = this.stateAt(Math.min(same, this.state.order));
    this.entries = entries;
    for (const cache of [this.states, this.recent])
      for (const count of cache.keys()) if (count > same) cache.delete(count);
    this.findingsByEntry.length = Math.min(this.findingsByEntry.length, from.order);
    this.state = from;
    this.keep(from);
  }

  /**
   * The number of leading entries with the same meaning as before, and the indexes of those among them that are worded
   * differently.
   */
  private compare(entries: readonly LogEntry[]): { same: number; reworded: number[] } {
    const most = Math.min(entries.length, this.entries.length);
    const reworded: number[] = [];
    for (let k = 0; k < most; k++) {
      const [now, then] = [entries[k]!, this.entries[k]!];
      if (now === then || (now.entry === then.entry && now.cell === then.cell)) continue;
      if (now.cell !== then.cell || reworded.length >= MOST_REWORDED || !hasSameMeaning(now.entry, then.entry))
        return { same: k, reworded };
      reworded.push(k);
    }
    return { same: most, reworded };
  }

  get folded(): number {
    return this.state.order;
  }

  advance(enough: () => boolean): boolean {
    if (!this.outcomes.proceed(enough)) return false;
    while (this.state.order < this.entries.length) {
      for (let k = 0; k < AT_ONCE && this.state.order < this.entries.length && !this.outcomes.isJudging; k++) {
        this.foldNext();
        this.outcomes.beginAt(this.state);
      }
      // Computed step by step here; otherwise the evaluation at the end would block for the whole log.
      if (this.state.segment) runFilter(this.state.segment);
      if (!this.outcomes.proceed(enough) || enough()) return this.isDone;
    }
    for (const stretch of this.outcomes.pending()) {
      this.outcomes.begin(stretch);
      if (!this.outcomes.proceed(enough) || enough()) break;
    }
    return this.isDone;
  }

  fold(): void {
    while (this.state.order < this.entries.length) this.foldNext();
  }

  get isDone(): boolean {
    return this.state.order >= this.entries.length && this.outcomes.pending().length === 0;
  }

  private foldNext(): void {
    const { order } = this.state;
    this.findingsByEntry.push(this.findingsAt(order, this.state));
    this.state = step(this.state, this.entries[order]!);
    if (this.state.order % EVERY === 0) this.states.set(this.state.order, this.state);
  }

  private findingsAt(index: number, before: State): readonly Finding[] {
    const findings = entryRules.flatMap((rule) => rule(this.entries[index]!, before) ?? []);
    return findings.length === 0 ? NOTHING : findings;
  }

  /** The state after `count` entries, from the nearest cached one. */
  private stateAt(count: number): State {
    const nearest = this.nearest(count);
    let state = nearest;
    for (let k = nearest.order; k < count; k++) state = step(state, this.entries[k]!);
    this.keep(state);
    return state;
  }

  private nearest(count: number): State {
    if (this.state.order <= count) {
      while (this.state.order < count) this.foldNext();
      return this.state;
    }
    const milestone = this.states.get(count - (count % EVERY)) ?? this.initial;
    let best = milestone;
    for (const [at, state] of this.recent) if (at <= count && at > best.order) best = state;
    return best;
  }

  private keep(state: State): void {
    this.recent.delete(state.order);
    this.recent.set(state.order, state);
    if (this.recent.size > LATELY) this.recent.delete(this.recent.keys().next().value!);
  }

  evaluation(count = this.entries.length): Evaluation {
    return this.evaluatedAt(`now ${count}`, count, () => this.now(count));
  }

  judged(count = this.entries.length): Evaluation {
    return this.evaluatedAt(`judged ${count}`, count, () => this.stateAt(count));
  }

  findings(from: number): readonly Finding[] {
    const count = this.entries.length;
    this.stateAt(count);
    return [...this.findingsByEntry.flat(), ...this.outcomes.until(count, from), ...this.latest(count)];
  }

  private latest(count: number): readonly Finding[] {
    return latestRules.flatMap((rule) => rule(this.stateAt(count), this.entries));
  }

  private evaluatedAt(key: string, count: number, state: () => State): Evaluation {
    const before = this.evaluations.get(key);
    if (before) return before;
    const entries = count === this.entries.length ? this.entries : this.entries.slice(0, count);
    const computed = evaluated(state(), entries, () => [
      ...this.findingsByEntry.slice(0, count).flat(),
      ...this.outcomes.until(count),
      ...this.latest(count),
    ]);
    this.evaluations.set(key, computed);
    if (this.evaluations.size > LATELY) this.evaluations.delete(this.evaluations.keys().next().value!);
    return computed;
  }

  /** The state carried on to the latest date. */
  private now(count = this.entries.length): State {
    return carriedOn(this.stateAt(count));
  }

  report(name: string, count: number, limits?: Limits): StationReport | undefined {
    const then = this.stateAt(count);
    const state = limits === undefined || limits === then.limits ? then : { ...then, limits };
    const before = this.reports.get(state)?.get(name);
    if (before) return before;
    const estimated = estimate(state);
    const stationFound = estimated && station(estimated.system, name);
    const computed = estimated && stationFound && stationVerdict(state, stationFound, estimated).report;
    if (computed) this.reports.set(state, new Map(this.reports.get(state)).set(name, computed));
    return computed;
  }

  rounds(name: string, count: number): readonly SessionRound[] {
    return roundsOf(this.entries, name, count, this.moments);
  }

  visit(name: string, visit: VisitSpan): StationVisit {
    return visitOf(this.entries, name, visit, this.moments);
  }

  driftCovariance(name: string, settings: readonly Readonly<Record<string, number>>[]): Matrix | undefined {
    return driftCovariance(this.stateAt(this.entries.length), name, settings);
  }

  whatIf(name: string, turns: readonly TriedTurn[]): readonly Expected[] {
    return whatIf(this.now(), name, turns);
  }

  outlook(name: string, turns: readonly TriedTurn[]): Outlook | undefined {
    return outlook(this.now(), name, turns);
  }

  beamPath(legs: Readonly<Record<string, number>>, widthOn: WidthOn): Omit<PathFigure, 'kind'> | undefined {
    const estimated = estimate(this.now());
    const { stations: reports, steps } = this.evaluation();
    return estimated && beamPath(estimated, { reports, steps, legs, widthOn });
  }

  screwsBefore(name: string) {
    return screwsBefore(this.stateAt(this.entries.length), name);
  }

  turnEffect(index: number): TurnEffect | undefined {
    return turnEffect(this.entries, index, (count) => this.stateAt(count));
  }

  turnOutcome(index: number): TurnOutcome | undefined {
    return turnOutcome(this.entries, index, (count) => this.stateAt(count));
  }
}

const NOTHING: readonly Finding[] = [];

/** More changed entries do not come from typing. */
const MOST_REWORDED = 32;
/**
 * Whether two entries lead to the same state. Positions in the cell and remarks do not change it; `by` counts only for
 * a release.
 */
function hasSameMeaning(one: Entry, other: Entry): boolean {
  // A note may clear an unfit part.
  const meaning = ({ spans: _, note, by, photos: _photos, amended: _amended, ...rest }: Entry) =>
    JSON.stringify({ ...rest, ...(rest.kind === 'care' && { note }), ...(rest.kind === 'release' && { by }) });
  return meaning(one) === meaning(other);
}
