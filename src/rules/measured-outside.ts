/** Other measured quantities outside their limits: reported at their cell, and at a release for those left so. */
import {
  findingAt,
  isOutside,
  limitFor,
  measuredInWords,
  measureLimitInWords,
  pathTo,
  quantityInWords,
  type Finding,
  type LogEntry,
} from '../model/index.ts';
import type { State } from '../estimate/index.ts';
import { listed } from '../words/index.ts';
import { isReturn } from './rule.ts';

export function measuredOutside(logged: LogEntry, { measured, system }: State): Finding[] {
  const { entry } = logged;
  if (entry.kind !== 'measure') return [];
  const { name, dimension, values } = entry;
  const limit = limitFor(measured, entry);
  if (limit === undefined) return [];
  const units = system?.machine.units ?? 'mm';
  return values
    .filter((value) => isOutside(value, limit))
    .map(({ place, value, path }) =>
      findingAt(logged, path, 'measure.outside', {
        what: measuredInWords(name, place),
        value: quantityInWords(value, dimension, units),
        limit: measureLimitInWords(limit, dimension, units),
      }),
    );
}

export function releasedOutside(logged: LogEntry, { measured }: State): Finding | undefined {
  if (!isReturn(logged)) return undefined;
  const outside = [...measured].flatMap(([name, thing]) =>
    [...thing.outside].map((place) => measuredInWords(name, place === '' ? undefined : place)),
  );
  return outside.length === 0
    ? undefined
    : findingAt(logged, pathTo('release'), 'release.measured', { what: listed(outside) });
}
