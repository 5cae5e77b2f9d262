/** The whole log evaluated: what every station's marks mean, what was noticed, and what to do next. */
import type { Evaluation, Finding, LogEntry } from '../model/index.ts';
import { estimate } from './estimate.ts';
import { step } from './fold.ts';
import { learnt } from './learnt.ts';
import { blocked, next } from './next.ts';
import { standings } from './report.ts';
import { entryRules, outcomeRules } from './rules/index.ts';
import { BEFORE, type State } from './state.ts';
import { whole } from './whole.ts';

/** @param entries in file order, as the reader of workbooks gives them. The advice, the offer and what was learnt are worked out when they are asked for. */
export function evaluate(entries: readonly LogEntry[]): Evaluation {
  const { state, findings } = foldWithRules(entries);
  const estimated = estimate(state);
  if (!estimated) return { ...blocked('No machine is described yet. Begin the workbook with a machine cell.'), stations: [], learnt: [], findings };
  const standing = standings(state, estimated);
  const outcome = { state, estimate: estimated, standings: standing, entries };
  const said = [...findings, ...outcomeRules.flatMap((rule) => rule(outcome))];
  const off = state.limits?.rules ?? {};
  const advice = once(() => next(state, estimated, standing));
  const offer = once(() => whole(state, estimated, standing, advice().steps));
  const lessons = once(() => learnt(estimated.belief));
  return {
    get verdict() { return advice().verdict; },
    get steps() { return advice().steps; },
    get expected() { return advice().expected; },
    get whole() { return offer(); },
    get learnt() { return lessons(); },
    stations: standing.map(({ report }) => report),
    findings: said.filter(({ code }) => !Object.hasOwn(off, code)),
  };
}

function once<T>(work: () => T): () => T {
  let done: { readonly result: T } | undefined;
  return () => (done ??= { result: work() }).result;
}

function foldWithRules(entries: readonly LogEntry[]): { state: State; findings: Finding[] } {
  const findings: Finding[] = [];
  const state = entries.reduce((before, logged) => {
    for (const rule of entryRules) findings.push(...[rule(logged, before) ?? []].flat());
    return step(before, logged);
  }, BEFORE);
  return { state, findings };
}
