/** A state as it is shown: what each part of it costs is paid when somebody asks for that part. */
import type { Evaluation, Finding, LogEntry } from '../model/index.ts';
import { doubts, estimate, type State } from '../estimate/index.ts';
import { learnt, next, blocked, whole } from '../advice/index.ts';
import { inNewVisit } from './new-visit.ts';
import { once } from '../machine/index.ts';
import { standings } from '../verdict/index.ts';

/** @param found what the rules said of the log up to here */
export function evaluated(state: State, entries: readonly LogEntry[], found: () => readonly Finding[]): Evaluation {
  const estimated = estimate(state);
  if (!estimated)
    return { ...blocked(whyNoMachine(entries)), unexplained: 0, stations: [], learnt: [], findings: found() };
  const standing = once(() => standings(state, estimated));
  const doubtful = once(() => doubts(state));
  const advice = once(() => next(state, estimated, standing(), doubtful()));
  const steps = once(() => (state.phase === 'released' ? inNewVisit(advice().steps) : advice().steps));
  const offer = once(() => whole(state, estimated, standing(), advice().steps));
  const lessons = once(() => learnt(estimated.belief));
  const findings = once(found);
  return {
    get verdict() {
      return advice().verdict;
    },
    get steps() {
      return steps();
    },
    get expected() {
      return advice().expected;
    },
    get chance() {
      return advice().chance;
    },
    get unexplained() {
      return doubtful().unexplained.length;
    },
    get whole() {
      return offer();
    },
    get learnt() {
      return lessons();
    },
    get stations() {
      return standing().map(({ report }) => report);
    },
    get findings() {
      return findings();
    },
  };
}

function whyNoMachine(entries: readonly LogEntry[]): string {
  const isUnread = entries.some(({ entry }) => entry.kind === 'unread' && entry.of === 'machine');
  return isUnread
    ? 'Fix the machine cell first: it has errors.'
    : 'The workbook describes no machine yet. Begin it with a machine cell.';
}
