/** The x positions of visits: by their days, or at equal distances if not all days are known. */
import { linear } from '../linear.ts';
import { daysBetween, type VisitMarks, type VisitsFigure } from '../../model/index.ts';

export interface Calendar {
  /** Pixels across; `found` and `left` of a visit are apart if it has both. */
  found(visit: number): number;
  left(visit: number): number;
  /** This many days after the last marks; undefined at equal distances. */
  ahead(days: number): number | undefined;
  /** Labels below the visits, without overlap. */
  readonly labels: readonly Label[];
  /** The last day of the forecast. */
  readonly end?: Label;
}

export interface Label {
  readonly x: number;
  readonly text: string;
}

/** Pixels between as found and as left on one day. */
const APART = 5;
/** Pixels of a date, and between two. */
const DATE = 62;
const GAP = 8;
/** Maximum distance between visits without dates. */
const WIDEST = 72;

export function calendar({ visits, ahead }: VisitsFigure, from: number, to: number): Calendar {
  const days = daysOf(visits.flatMap(({ found, left }) => [found ?? left, left]));
  if (!days) return inOrder(visits, from, to);
  const last = days.at(-1)!;
  const end = Math.max(last + (ahead.at(-1)?.days ?? 0), 1);
  const x = linear([0, end], [from + DATE / 2, to - DATE / 2]);
  const aside = (visit: number) => (visits[visit]!.found && days[2 * visit] === days[2 * visit + 1] ? APART : 0);
  const dates = visits.map(({ left }, k) => ({ x: x(days[2 * k + 1]!), text: left.date! }));
  const final = ahead.at(-1);
  return {
    found: (visit) => x(days[2 * visit]!) - aside(visit),
    left: (visit) => x(days[2 * visit + 1]!) + aside(visit),
    ahead: (later) => x(last + later),
    labels: withoutOverlap([...dates.slice(-1), ...dates.slice(0, 1), ...dates.slice(1, -1)]),
    ...(final && { end: { x: x(last + final.days), text: final.on } }),
  };
}

function inOrder(visits: VisitsFigure['visits'], from: number, to: number): Calendar {
  const step = Math.min(WIDEST, (to - from) / Math.max(1, visits.length));
  const at = (visit: number) => from + (visit + 0.5) * step;
  const aside = (visit: number) => (visits[visit]!.found ? APART : 0);
  const numbers = visits.map(({ session }, k) => ({ x: at(k), text: `${session}` }));
  return {
    found: (visit) => at(visit) - aside(visit),
    left: (visit) => at(visit) + aside(visit),
    ahead: () => undefined,
    labels: step < 20 ? [...numbers.slice(0, 1), ...numbers.slice(1).slice(-1)] : numbers,
  };
}

/** Days after the first; undefined if one is unknown, or they are out of order. */
function daysOf(marks: readonly VisitMarks[]): number[] | undefined {
  const first = marks[0]?.date;
  const days = marks.map(({ date }) => (date === undefined || first === undefined ? NaN : daysBetween(first, date)));
  return days.length > 0 && days.every((day, k) => day >= (days[k - 1] ?? 0)) ? days : undefined;
}

/** Labels in order of importance; one that would overlap an earlier one is left out. */
function withoutOverlap(labels: readonly Label[]): readonly Label[] {
  return labels.reduce<readonly Label[]>(
    (placed, label) => (placed.some(({ x }) => Math.abs(x - label.x) < DATE + GAP) ? placed : [...placed, label]),
    [],
  );
}
