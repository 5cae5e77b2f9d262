/** Behind every line of scratch arithmetic: what it comes to. */
import type { WorkEntry } from '../model/index.ts';
import type { HintsFor } from './hints.ts';

export const resultHints: HintsFor = (_, { entry }) => {
  if (entry.kind !== 'work') return [];
  return Object.entries(entry.results).flatMap(([name, result]) => {
    const span = Object.hasOwn(entry.spans, name) ? entry.spans[name] : undefined;
    const said = resultInWords(result);
    return span ? [{ span, label: `= ${said}`, tooltip: `\`${name}\` = ${said}`, inLine: true }] : [];
  });
};

/** How the results of a dimension are shown: factor and unit. */
const UNITS: Readonly<Record<string, readonly [factor: number, unit: string]>> = { length: [1, ' mm'], angle: [1000, ' mrad'], power: [1, ' W'], time: [1, ' s'], number: [1, ''] };

export function resultInWords({ value, u, kind }: WorkEntry['results'][string]): string {
  const [factor, unit] = UNITS[kind] ?? [1, ` (${kind})`];
  const digits = (of: number) => String(Number((of * factor).toPrecision(4)));
  return `${digits(value)}${u === undefined ? '' : ` ± ${digits(u)}`}${unit}`;
}
