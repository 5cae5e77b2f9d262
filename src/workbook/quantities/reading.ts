/**
 * The result of a scalar reader. A reader never throws: it returns a value or problems, as stable codes and facts; the
 * messages are elsewhere. Offsets are in the scalar's own text, so that the caller can map them to the file with any
 * quotes around it.
 */

export const QUANTITY_CODES = [
  'quantity.unreadable',
  'quantity.tooLong',
  'quantity.decimalComma',
  'quantity.thousands',
  'quantity.mixed',
  'quantity.unit',
  'quantity.noUnit',
  'quantity.name',
  'quantity.operator',
  'quantity.operand',
  'quantity.bracket',
  'quantity.expression',
  'quantity.dimension',
  'quantity.range',
  'quantity.sign',
  'turn.sense',
  'turn.length',
  'turn.amount',
  'mark.unreadable',
  'mark.direction',
  'mark.length',
  'mark.order',
  'mark.word',
  'mark.twice',
  'mark.comma',
  'mark.clock',
  'mark.shape',
  'mark.mixed',
  'mark.uncertainty',
  'mark.words',
  'mark.seen',
  'shift.unreadable',
  'shift.direction',
  'shift.length',
  'shift.order',
  'shift.word',
  'shift.twice',
  'shift.comma',
  'date.unreadable',
  'date.calendar',
  'interval.unreadable',
  'photo.unusable',
  'name.unreadable',
] as const;

/** The code of a problem with a scalar. */
export type QuantityCode = (typeof QUANTITY_CODES)[number];

/** A problem with a scalar. */
export interface QuantityProblem {
  readonly code: QuantityCode;
  /** offsets in the scalar's text, `from <= to` */
  readonly from: number;
  readonly to: number;
  readonly facts: Readonly<Record<string, string>>;
  /** text that replaces [from, to) and fixes the problem */
  readonly fix?: string;
}

/** The value is present if and only if there are no problems. */
export interface Reading<T> {
  readonly value?: T;
  readonly problems: readonly QuantityProblem[];
}

/** The longest scalar that is read: a longer one is no quantity, and the bound keeps reading fast. */
const LONGEST = 400;

export function read<T>(value: T): Reading<T> {
  return { value, problems: [] };
}

export function refuse(...problems: QuantityProblem[]): Reading<never> {
  return { problems };
}

export function problem(
  code: QuantityCode,
  from: number,
  to: number,
  facts: Readonly<Record<string, string>>,
  fix?: string,
): QuantityProblem {
  return fix === undefined ? { code, from, to, facts } : { code, from, to, facts, fix };
}

/** The same reading, of a text that began `by` characters later in a longer one. */
export function shifted<T>(reading: Reading<T>, by: number): Reading<T> {
  if (reading.problems.length === 0) return reading;
  return { problems: reading.problems.map((p) => ({ ...p, from: p.from + by, to: p.to + by })) };
}

/** A problem if the text is too long, else undefined. */
export function tooLong(text: string): Reading<never> | undefined {
  if (text.length <= LONGEST) return undefined;
  return refuse(problem('quantity.tooLong', 0, text.length, { length: String(text.length), max: String(LONGEST) }));
}

/** A text as a fact in a message: short, on one line. */
export function quoted(text: string): string {
  const line = text.replace(/\s+/g, ' ').trim();
  return line.length > 60 ? `${line.slice(0, 59)}…` : line;
}
