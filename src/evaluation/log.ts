/**
 * A log that is folded once, and after an edit from where it was edited. A state stands every so many entries, besides
 * those that were asked for lately: what they hold in common (accounts, beliefs) is then worked out once.
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
import { runFilter, estimate, carriedOn, step, INITIAL_STATE, driftCovariance, type State } from '../estimate/index.ts';
import { beamPath, type WidthOn } from './beam-path.ts';
import { evaluated } from './evaluated.ts';
import { Outcomes } from './outcomes.ts';
import { stationVerdict } from '../verdict/index.ts';
import { roundsOf, type Moments, type SessionRound } from './rounds.ts';
import { entryRules, latestRules } from '../rules/index.ts';
import { station } from '../machine/index.ts';
import { turnEffect, type TurnEffect } from './turn-effect.ts';
import { visitOf, type StationVisit, type VisitSpan } from './visit.ts';
import { screwsBefore, whatIf } from './what-if.ts';

export interface Log {
  /** The entries as they are now, in file order. What stands before the first that differs stays folded. */
  replace(entries: readonly LogEntry[]): void;
  /** How many of them are folded. */
  readonly folded: number;
  /** Whether all are, and every visit that has ended is judged: then findings are at hand. */
  readonly isDone: boolean;
  /** Folds and judges on until `enough`, some entries at least; whether it is done. */
  advance(enough: () => boolean): boolean;
  /** Folds all entries; visits that have ended are judged when somebody asks what was found of them. */
  fold(): void;
  /**
   * Now: after the last entry, or after the first `count`, with the latest date among them as today. Each part of it is
   * computed when it is asked for. Findings are those of every visit as it stood at its end. Cells that its sentences name
   * stand there by their index (`cellsInWords`).
   */
  evaluation(count?: number): Evaluation;
  /** The same as a visit that ends here is judged for ever: time counts only up to the last cell that measures or moves. */
  judged(count?: number): Evaluation;
  /** What the rules find, of ended visits only where they end behind the entry `from`: judging them takes a while. */
  findings(from: number): readonly Finding[];
  /** One station alone, after the first `count` entries; nothing without a machine or such a station. */
  report(name: string, count: number): StationReport | undefined;
  /** The rounds of a station in the session that the entry before `count` belongs to, the oldest first. */
  rounds(name: string, count: number): readonly SessionRound[];
  /** A station as found and as left in a visit, and what moved it before and after. */
  visit(name: string, visit: VisitSpan): StationVisit;
  /** Covariance, mm², by which a day moves the marks of a station with the carriages in these places; right, up, right, up … */
  driftCovariance(name: string, settings: readonly Readonly<Record<string, number>>[]): Matrix | undefined;
  /** Where the marks of a station would come after turns that nobody has made, as the log stands now. */
  whatIf(name: string, turns: readonly TriedTurn[]): readonly Expected[];
  /** The beam through the machine as the log stands now, with carriages where they are asked to be (mm, by the element that rides); nothing without a machine. */
  beamPath(legs: Readonly<Record<string, number>>, widthOn: WidthOn): Omit<PathFigure, 'kind'> | undefined;
  /** Screws of the mirrors before a station, the nearest mirror first. */
  screwsBefore(name: string): readonly { readonly part: string; readonly screw: string }[];
  /** What the adjustment at this index should do to the marks, and did. Nothing for any other entry. */
  turnEffect(index: number): TurnEffect | undefined;
}

/** A state of a large machine takes some kilobytes. */
const EVERY = 32;
/** More than stand in a window. */
const LATELY = 128;
/** Entries between two looks at the clock. */
const AT_ONCE = 8;

export function createLog(): Log {
  return new FoldedLog();
}

class FoldedLog implements Log {
  private entries: readonly LogEntry[] = [];
  /** By the number of entries folded. */
  private readonly states = new Map<number, State>();
  private readonly recent = new Map<number, State>();
  private readonly evaluations = new Map<string, Evaluation>();
  private readonly outcomes = new Outcomes((count) => this.stateAt(count));
  /** Of states that are kept, by the station. */
  private readonly reports = new WeakMap<State, ReadonlyMap<string, StationReport>>();
  private readonly findingsByEntry: (readonly Finding[])[] = [];
  private state = INITIAL_STATE;
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

  /** Up to which entry nothing else follows from them than before, and which of these are put in other words. */
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
    while (this.state.order < this.entries.length) {
      for (let k = 0; k < AT_ONCE && this.state.order < this.entries.length; k++) {
        this.foldNext();
        this.outcomes.judgeAt(this.state);
      }
      // Computed step by step here; otherwise the evaluation at the end would block for the whole log.
      if (this.state.segment) runFilter(this.state.segment);
      if (enough()) return this.isDone;
    }
    for (const stretch of this.outcomes.pending()) {
      this.outcomes.judged(stretch);
      if (enough()) break;
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

  /** The state after so many entries, from the nearest that is kept. */
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
    const milestone = this.states.get(count - (count % EVERY)) ?? INITIAL_STATE;
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

  /** On the latest date. */
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
}

const NOTHING: readonly Finding[] = [];

/** More are no typing. */
const MOST_REWORDED = 32;
/** Where things stand in the cell, and what was remarked, changes no state; who does it counts for a release alone. */
function hasSameMeaning(one: Entry, other: Entry): boolean {
  // A note may say why an unfit part is fit.
  const meaning = ({ spans: _, note, by, photos: _photos, amended: _amended, ...rest }: Entry) =>
    JSON.stringify({ ...rest, ...(rest.kind === 'care' && { note }), ...(rest.kind === 'release' && { by }) });
  return meaning(one) === meaning(other);
}
