/** The findings of visits at their ends. A visit that others follow is judged once: later entries do not change it. */
import { judgedIn, type Finding, type LogEntry, type Stretch } from '../model/index.ts';
import { estimate, filterSteps, fold, type State } from '../estimate/index.ts';
import { finished, once } from '../machine/index.ts';
import { verdictSteps } from '../verdict/index.ts';
import { outcomeRules, type Outcome } from '../rules/index.ts';

export class Outcomes {
  private entries: readonly LogEntry[] = [];
  private stretches: readonly Stretch[] | undefined;
  private byEnd: ReadonlyMap<number, Stretch> | undefined;
  /** By the end of a stretch that others follow: the findings at its cells. */
  private readonly judgedFindings = new Map<number, readonly Finding[]>();
  /** The visit that is being judged, by its end. */
  private judging: { readonly to: number; readonly steps: Generator<undefined, readonly Finding[]> } | undefined;
  private readonly stateAt: (count: number) => State;

  /** @param stateAt the state after this number of entries */
  constructor(stateAt: (count: number) => State) {
    this.stateAt = stateAt;
  }

  /** @param same the number of leading entries that are unchanged */
  replace(entries: readonly LogEntry[], same: number): void {
    this.entries = entries;
    this.stretches = undefined;
    this.byEnd = undefined;
    // A visit may have ended only because the entry behind it began another one.
    this.forget((end) => end >= same);
  }

  /** An entry is worded differently: positions of findings in its cell change. */
  reword(index: number): void {
    this.forget((end) => end > index);
  }

  private forget(which: (end: number) => boolean): void {
    this.judging = undefined;
    for (const end of this.judgedFindings.keys()) if (which(end)) this.judgedFindings.delete(end);
  }

  /** Stretches that others follow and that are not judged yet. */
  pending(): readonly Stretch[] {
    return this.all().filter(({ to }) => to < this.entries.length && !this.judgedFindings.has(to));
  }

  private all(): readonly Stretch[] {
    return (this.stretches ??= judgedIn(this.entries));
  }

  /**
   * Called while the log is folded: begins to judge the visit that ends at this state, if others follow. The estimate
   * up to here is cached then.
   */
  beginAt(state: State): void {
    const { order } = state;
    if (order === this.entries.length || this.judgedFindings.has(order)) return;
    this.byEnd ??= new Map(this.all().map((stretch) => [stretch.to, stretch]));
    const stretch = this.byEnd.get(order);
    if (stretch) this.judging = { to: order, steps: outcomeSteps(state, this.entries, stretch) };
  }

  /** Begins to judge a pending visit. */
  begin(stretch: Stretch): void {
    this.judging = { to: stretch.to, steps: this.stepsOf(stretch) };
  }

  get isJudging(): boolean {
    return this.judging !== undefined;
  }

  /** Goes on judging the visit that was begun, until it is judged or `enough`; false if it is not judged yet. */
  proceed(enough: () => boolean): boolean {
    while (this.judging) {
      const { done, value } = this.judging.steps.next();
      if (done === true) {
        this.judgedFindings.set(this.judging.to, value);
        this.judging = undefined;
      } else if (enough()) return false;
    }
    return true;
  }

  /**
   * Findings at the cells of all visits in the first `count` entries that end behind `from`; the last visit is judged
   * at `count`.
   */
  until(count: number, from = 0): Finding[] {
    const coversAll = count === this.entries.length;
    const stretches = coversAll ? this.all() : judgedIn(this.entries.slice(0, count));
    return stretches
      .filter(({ to }) => to > from)
      .flatMap((stretch) =>
        stretch.to < count ? this.judged(stretch) : finished(outcomeSteps(this.stateAt(count), this.entries, stretch)),
      );
  }

  private judged(stretch: Stretch): readonly Finding[] {
    const before = this.judgedFindings.get(stretch.to);
    if (before) return before;
    const findings = finished(this.stepsOf(stretch));
    this.judgedFindings.set(stretch.to, findings);
    return findings;
  }

  private stepsOf(stretch: Stretch): Generator<undefined, readonly Finding[]> {
    const { from, to } = stretch;
    return outcomeSteps(fold(this.entries.slice(from, to), this.stateAt(from)), this.entries, stretch);
  }
}

/**
 * Findings at the cells of a stretch, by the state at its end; none without a machine. A step is the filter, the verdict
 * on a station or a rule.
 */
function* outcomeSteps(
  state: State,
  entries: readonly LogEntry[],
  { from, to }: Stretch,
): Generator<undefined, readonly Finding[], undefined> {
  if (!state.segment) return [];
  yield* filterSteps(state.segment);
  const estimated = estimate(state)!;
  const verdicts = yield* verdictSteps(state, estimated);
  const above = once(() => entries.slice(0, to));
  const visit = entries.slice(from, to);
  const [first, last] = [visit[0]?.cell ?? 0, visit.at(-1)?.cell ?? -1];
  const all: Outcome = {
    state,
    visit,
    estimate: estimated,
    verdicts,
    get entries() {
      return above();
    },
  };
  const findings: Finding[] = [];
  for (const rule of outcomeRules) {
    findings.push(...rule(all).filter(({ cell }) => cell >= first && cell <= last));
    yield;
  }
  return findings;
}
