/**
 * What the filter has computed for a log, so that work before a known state is not repeated. One object for each log;
 * the states of the log and its segments refer to it, and nothing in it changes a result.
 */
import type { FilterState } from './filter-state.ts';
import type { LoggedReading } from './logged-reading.ts';

/** An event of a segment, the `count`-th of it. */
interface Counted {
  readonly count: number;
}

const MILESTONE = 8;
/** Maximum entries of each map. */
const MAX_CACHED = 200;
const MAX_BYTES = 32e6;

/**
 * States by the event that they follow: the most recently requested ones, and every eighth one, from which the others
 * are recomputed in at most seven steps. States of segments without an event, by their initial readings. An estimate
 * takes up to twenty kilobytes; one of a hundred mirrors takes ten megabytes.
 */
export class FilterCache {
  readonly #recent = new Map<Counted, FilterState>();
  readonly #milestones = new Map<Counted, FilterState>();
  readonly #initial = new Map<readonly LoggedReading[], FilterState>();
  #latest: { readonly state: object; readonly value: unknown } | undefined;

  stateAfter(event: Counted): FilterState | undefined {
    return this.#recent.get(event) ?? this.#milestones.get(event);
  }

  keep(event: Counted, state: FilterState, isRequested: boolean): void {
    if (event.count % MILESTONE === 0) put(this.#milestones, event, state);
    if (isRequested) put(this.#recent, event, state);
  }

  /** An update with all initial readings costs as much as many cells. */
  initialState(readings: readonly LoggedReading[], compute: () => FilterState): FilterState {
    const state = this.#initial.get(readings) ?? compute();
    put(this.#initial, readings, state);
    return state;
  }

  /** The value that was kept for this state, if none was kept for another one since. One function may use it. */
  latestOf<T>(state: object): T | undefined {
    return this.#latest?.state === state ? (this.#latest.value as T) : undefined;
  }

  keepLatest<T>(state: object, value: T): T {
    this.#latest = { state, value };
    return value;
  }
}

function put<Key>(states: Map<Key, FilterState>, key: Key, state: FilterState): void {
  const most = Math.min(MAX_CACHED, Math.max(2, MAX_BYTES / (4 * state.distribution.covariance.length ** 2)));
  states.set(key, state);
  while (states.size > most) states.delete(states.keys().next().value!);
}
