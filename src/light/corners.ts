/** Corners of the carriages: each at an end of its travel, in every combination. */
import { lookup, type Machine, type PathElement, type Quantity } from '../model/index.ts';

/** Maximum number of travels that vary. A machine has two; if a file names more, the last ones vary. */
const MOST = 4;

export interface Corner {
  /** Name of the stop by element. */
  readonly with: Readonly<Record<string, string>>;
  /** The leg before each element of the path, up to the first unknown one. */
  readonly legs: readonly Quantity[];
}

export function cornersOf({ path }: Pick<Machine, 'path'>): readonly Corner[] {
  const travels = path.filter(({ stops }) => stops !== undefined && Object.keys(stops).length > 0);
  const free = travels.slice(-MOST);
  const ends = travels.map(
    (element) => [element.name, free.includes(element) ? endsOf(element) : endsOf(element).slice(0, 1)] as const,
  );
  const all = ends.reduce<Record<string, string>[]>(
    (sofar, [name, stops]) => sofar.flatMap((corner) => stops.map((stop) => ({ ...corner, [name]: stop }))),
    [{}],
  );
  return all.map((at) => ({ with: at, legs: legsAt(path, at) }));
}

function legsAt(path: readonly PathElement[], at: Readonly<Record<string, string>>): Quantity[] {
  const legs = path.map(({ name, leg, stops }) => leg ?? (stops && lookup(stops, lookup(at, name) ?? '')));
  const unknown = legs.indexOf(undefined);
  return (unknown < 0 ? legs : legs.slice(0, unknown)) as Quantity[];
}

/** Names of the shortest and the longest stop; one if there is only one. */
function endsOf({ stops = {} }: PathElement): string[] {
  const names = Object.entries(stops)
    .sort(([, one], [, other]) => one.value - other.value)
    .map(([name]) => name);
  return names.length > 1 ? [names[0]!, names.at(-1)!] : names;
}
