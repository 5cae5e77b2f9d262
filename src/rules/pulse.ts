/** A test shot with more power or time than the machine cell allows. */
import { findingAt, hundredths, pathTo, type Finding, type LogEntry } from '../model/index.ts';
import type { State } from '../estimate/index.ts';

export function pulse(logged: LogEntry, { system }: State): Finding[] {
  const { entry } = logged;
  const most = system?.machine.pulse;
  if (entry.kind !== 'marks' || !entry.pulse || !most) return [];
  const used = entry.pulse;
  return (['power', 'time'] as const).flatMap((part) => {
    const [now, limit] = [used[part], most[part]];
    return now !== undefined && limit !== undefined && now > limit
      ? [
          findingAt(logged, pathTo('pulse', part), 'fire.pulse', {
            what: part,
            used: amountInWords(part, now),
            most: amountInWords(part, limit),
          }),
        ]
      : [];
  });
}

/** In the units of the cell: a fraction as percent, seconds as milliseconds. */
function amountInWords(part: 'power' | 'time', value: number): string {
  return part === 'power' ? `${hundredths(value * 100)} %` : `${hundredths(value * 1000)} ms`;
}
