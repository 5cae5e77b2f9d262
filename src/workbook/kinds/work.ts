/**
 * Scratch arithmetic: every other key is a user-defined name, its value an expression with the names above it, units,
 * values of the machine cell (`M2.far`, `lens.focal`, `corner.pitch`) and of the log (`M2.slope.right`). A failed value
 * is reported once: lines that depend on it are left out without a report. Names that depend on the log are listed in
 * `later` and computed by the language layer.
 */
import * as z from 'zod';
import { isKind, pathTo } from '../../model/index.ts';
import { isReserved } from '../quantities/index.ts';
import { NAME, text } from '../shapes.ts';
import { ASIDE, type Common } from './common.ts';
import type { Cell, CellKind } from './kind.ts';
import { isLogName } from './log-names.ts';
import { machineValues } from './machine-values.ts';
import { computeWork, type Known } from './compute-work.ts';

export const work: CellKind<'work', ReturnType<typeof schema>> = {
  subject: 'words',
  skeleton: 'work: ${1:title}\n${2:name}: ${3:1 mm + 2 mm}\n$0',
  about: ({ title }) => title,
  schema,
  isOptional: (path) => path !== pathTo('work'),
  meaning({ work: title, ...written }, cell) {
    const lines = Object.entries(written).filter((line): line is [string, Line] => !ASIDE.has(line[0]));
    const values = Object.fromEntries(lines.map(([name, { expression }]) => [name, expression]));
    const unusable = new Set(Object.keys(values).filter((name) => !isFree(name, cell)));
    const known = cell.inForce === undefined ? new Map<string, Known>() : machineValues(cell.inForce);
    const isOfLog = isLogName(cell.inForce, known);
    const { results, problems, later } = computeWork(values, {
      known,
      unusable,
      isOfLog,
      calculate: (expression, names) => cell.calculate(expression, names),
    });
    for (const { name, from, to, fix, ...problem } of problems) cell.pass(pathTo(name), problem, { from, to, fix });
    return { kind: 'work', title, values, results, ...(later.length > 0 && { later }) };
  },
};

interface Line {
  readonly expression: string;
}

function schema(common: Common) {
  const expression = z
    .string({ error: () => 'an expression' })
    .transform((written): Line => ({ expression: written }))
    .meta({
      description:
        'An expression over the names above it, units, the machine’s values such as `M2.far` and the log’s such as `M2.slope.right`.',
      examples: ['6.0 mm - 1.5 mm', 'drift / (M2.far - M2.near)'],
      type: ['string', 'number'],
    });
  return z
    .object(
      { work: text('Scratch arithmetic, and what it is about.', 'tilt of M1'), ...common },
      { error: () => 'a work cell' },
    )
    .catchall(expression);
}

function isFree(name: string, cell: Cell): boolean {
  if (!NAME.test(name)) cell.report(pathTo(name), 'name.unreadable', { name }, { atKey: true });
  else if (isKind(name) || isReserved(name)) cell.report(pathTo(name), 'name.reserved', { name }, { atKey: true });
  else return true;
  return false;
}
