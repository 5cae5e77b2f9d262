/**
 * Scratch arithmetic: every further key is a name of the user's, its value an expression over the names above it,
 * units, and what the machine cell says (`M2.far`, `lens.focal`, `corner.pitch`). A value that cannot be worked out is
 * reported once: what rests on it is left out in silence.
 */
import * as z from 'zod';
import type { FindingCode, WorkEntry } from '../../model/index.ts';
import { isReserved, type Dimensioned } from '../quantities/index.ts';
import { NAME, text } from '../shapes.ts';
import type { Fields } from '../fields.ts';
import { common, type Cell, type CellKind } from './kind.ts';
import { KIND_WORDS } from './words.ts';
import { machineValues } from './machine-values.ts';

export const work: CellKind<ReturnType<typeof schema>> = {
  schema,
  standsWithout: (path) => path !== 'work',
  meaning({ work: title, date: _date, by: _by, note: _note, ...written }, cell) {
    const values = Object.fromEntries(Object.entries(written).map(([name, { expression }]) => [name, expression]));
    return { kind: 'work', title, values, results: results(values, cell) };
  },
};

function schema(fields: Fields) {
  const expression = z
    .string({ error: () => 'an expression' })
    .transform((written) => ({ expression: written }))
    .meta({
      description: 'An expression over the names above it, units, and the machine’s values such as `M2.far`.',
      examples: ['6.0 mm - 1.5 mm', 'drift / (M2.far - M2.near)'],
      type: ['string', 'number'],
    });
  return z
    .object({ work: text('Scratch arithmetic, and what it is about.', 'tilt of M1'), ...common(fields) }, { error: () => 'a work cell' })
    .catchall(expression);
}

function results(values: Readonly<Record<string, string>>, cell: Cell): WorkEntry['results'] {
  const known = cell.inForce === undefined ? new Map<string, Dimensioned>() : machineValues(cell.inForce);
  const failed = new Set<string>();
  const found: Record<string, WorkEntry['results'][string]> = {};
  for (const [name, expression] of Object.entries(values)) {
    if (!isFree(name, cell) || wordsOf(expression).some((word) => failed.has(word))) {
      failed.add(name);
      continue;
    }
    const { value, problems } = cell.calculate(expression, known);
    for (const { code, from, to, facts, fix } of problems) cell.report(name, code as FindingCode, facts, { from, to, fix });
    if (value === undefined) {
      failed.add(name);
      continue;
    }
    known.set(name, value);
    found[name] = { value: value.value, kind: value.kind, ...(value.u !== undefined && { u: value.u }) };
  }
  return found;
}

function isFree(name: string, cell: Cell): boolean {
  if (!NAME.test(name)) cell.report(name, 'name.unreadable', { name }, { atKey: true });
  else if (KIND_WORDS.has(name) || isReserved(name)) cell.report(name, 'name.reserved', { name }, { atKey: true });
  else return true;
  return false;
}

function wordsOf(expression: string): string[] {
  return expression.match(/[A-Za-z]\w*/g) ?? [];
}
