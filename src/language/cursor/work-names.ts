/** The dotted names for arithmetic at a cell, each with its description and value. */
import type { Machine, Units } from '../../model/index.ts';
import {
  dimensionName,
  LOG_NAMES,
  machineValues,
  namesIn,
  uncertainty,
  WIDTH_ON,
  type Known,
} from '../../workbook/index.ts';
import type { Book } from '../book/book-type.ts';
import type { IndexedEntry } from '../book/entries-of.ts';
import { logValue } from '../book/log-value.ts';
import { machineAt } from '../book/machine-at.ts';
import { resultInWords } from '../hints/result-hints.ts';

export interface WorkName {
  readonly name: string;
  readonly what: string;
}

/** All names from the machine. */
export function workNames(machine: Machine): WorkName[] {
  const own = machineValues(machine);
  const ofLog = machine.path.flatMap(({ name }) =>
    Object.entries(LOG_NAMES).map(([key, { what }]) => ({ name: `${name}.${key}`, what })),
  );
  const widths = machine.path.map(({ name }) => ({ name: `${WIDTH_ON.prefix}${name}`, what: WIDTH_ON.what }));
  return [
    ...[...own].map(([name, value]) => ({ name, what: inWords(value, machine.units) })),
    ...ofLog.filter(({ name }) => !own.has(name)),
    ...widths,
  ];
}

/** A line for each name in an expression. */
export function valuesUsed(book: Book, { cell, index }: IndexedEntry, expression: string): string[] {
  const machine = machineAt(book, cell);
  if (!machine) return [];
  const own = machineValues(machine);
  return [...new Set(namesIn(expression))].flatMap((name) => {
    const value = own.get(name);
    if (value) return [`\`${name}\` = ${inWords(value, machine.units)}, from the machine cell`];
    const fromLog = logValue({ log: book.log, machine, count: index }, name);
    const what = name.startsWith(WIDTH_ON.prefix)
      ? WIDTH_ON.what
      : (LOG_NAMES[name.slice(name.indexOf('.') + 1)]?.what ?? '');
    return fromLog === undefined
      ? []
      : [
          `\`${name}\` ${'why' in fromLog ? `not known yet: ${fromLog.why}` : `= ${inWords(fromLog, machine.units)}`}; ${what}`,
        ];
  });
}

function inWords(known: Known, units: Units): string {
  return resultInWords({ value: known.value, kind: dimensionName(known.dimension), ...uncertainty(known) }, units);
}
