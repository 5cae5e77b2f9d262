/** The evaluation of a state. Each part is computed when it is read. */
import type { Evaluation, Finding, LogEntry } from '../model/index.ts';
import { doubts, estimate, type State } from '../estimate/index.ts';
import { learntFacts, makeSafe, next, blocked, twoWays, wholeMachine } from '../advice/index.ts';
import { inNewVisit } from './new-visit.ts';
import { once } from '../machine/index.ts';
import { stationVerdicts } from '../verdict/index.ts';

/** @param computeFindings the findings of the rules up to here */
export function evaluated(
  state: State,
  entries: readonly LogEntry[],
  computeFindings: () => readonly Finding[],
): Evaluation {
  const estimated = estimate(state);
  if (!estimated)
    return { ...withoutMachine(entries), unexplained: 0, stations: [], learnt: [], findings: computeFindings() };
  const verdicts = once(() => stationVerdicts(state, estimated));
  const doubtsNow = once(() => doubts(state));
  const advice = once(() => next(state, estimated, verdicts(), doubtsNow()));
  const steps = once(() => {
    const advised = advice().steps;
    return state.phase === 'released' ? inNewVisit(advised) : [...makeSafe(state, advised), ...advised];
  });
  const ways = once(() =>
    state.phase === 'released' ? undefined : twoWays(state, estimated, verdicts(), { ...advice(), steps: steps() }),
  );
  const offer = once(() => wholeMachine(state, estimated, verdicts(), advice().steps));
  const learntFactsNow = once(() => learntFacts(estimated.distribution));
  const findings = once(computeFindings);
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
      return doubtsNow().unexplained.length;
    },
    get ways() {
      return ways();
    },
    get whole() {
      return offer();
    },
    get learnt() {
      return learntFactsNow();
    },
    get stations() {
      return verdicts().map(({ report }) => report);
    },
    get findings() {
      return findings();
    },
  };
}

function withoutMachine(entries: readonly LogEntry[]) {
  const isUnread = entries.some(({ entry }) => entry.kind === 'unread' && entry.of === 'machine');
  const [brief, say] = isUnread
    ? ['fix the machine cell first', 'Fix the machine cell first: it has errors.']
    : ['describe the machine first', 'The workbook describes no machine yet. Begin it with a machine cell.'];
  const advice = blocked(say);
  return { ...advice, steps: advice.steps.map((step) => ({ ...step, brief })) };
}
