/**
 * On a practice machine the advice is closed until it is asked for. Asking is a note in the log, so that it is counted,
 * undone and shared as everything else; the next cell closes the advice again.
 */
import { withParts, type Evaluation, type LogEntry, type Machine } from '../../model/index.ts';

function isAsk({ entry }: LogEntry): boolean {
  return entry.kind === 'note' && /^asked for advice\b/i.test(entry.note?.trim() ?? '');
}

/** How often advice was asked for. */
export function asksIn(entries: readonly LogEntry[]): number {
  return entries.filter(isAsk).length;
}

/** `Advice was asked for twice.` */
export function asksInWords(asks: number): string {
  const times = ['', 'once', 'twice'][asks] ?? `${asks} times`;
  return `Advice was ${asks === 0 ? 'not asked for' : `asked for ${times}`}.`;
}

/** Whether the advice after these entries is closed: the machine in force is simulated, and nobody has just asked. */
export function isAdviceClosed(entries: readonly LogEntry[]): boolean {
  const last = entries.at(-1);
  return machineIn(entries)?.practice !== undefined && last !== undefined && !isAsk(last);
}

function machineIn(entries: readonly LogEntry[]): Machine | undefined {
  const entry = entries.findLast((one) => one.entry.kind === 'machine')?.entry;
  return entry?.kind === 'machine' ? entry.machine : undefined;
}

/** The same states and findings; of what to do next only the safety checks. */
export function withoutAdvice(evaluation: Evaluation): Evaluation {
  return withParts(evaluation, {
    get steps() {
      return evaluation.steps.filter(({ kind }) => kind === 'check');
    },
    expected: [],
    learnt: [],
    chance: undefined,
    whole: undefined,
    ways: undefined,
  });
}
