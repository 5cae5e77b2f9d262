/** Finds user-defined names and what each refers to: the basis of rename, references and semantic tokens. */
import {
  keysOf,
  lookup,
  pathTo,
  type Kind,
  type Machine,
  type Path,
  type PathElement,
  type Span,
} from '../../model/index.ts';
import { CELL_KINDS, readTree, type Place, type Subject } from '../../workbook/index.ts';
import type { Book } from '../book/book-type.ts';
import { kindOf } from '../cursor/cursor-node.ts';
import { TUBE } from '../cursor/names-for.ts';

/** What a user-defined name refers to. */
export type Role = 'machine' | 'station' | 'stop' | 'mount' | 'screw';

/** One occurrence of a user-defined name. */
export interface NameUse {
  readonly role: Role;
  readonly name: string;
  /** For a stop its station, for a screw its mount. */
  readonly of?: string;
  /** Offsets in the file. */
  readonly start: number;
  readonly end: number;
  readonly isDefinition: boolean;
  /** The machine that is in force here. */
  readonly machine?: string;
}

/** @param mentions only cells that contain this word are searched */
export function namesIn(book: Book, first = 0, end = book.split.cells.length, mentions?: string): NameUse[] {
  const machines = machinesUpTo(book, end);
  return book.split.cells.slice(first, end).flatMap((cell, k) => {
    if (mentions !== undefined && !cell.text.includes(mentions)) return [];
    const machine = machines[first + k];
    return usesIn(cell.readings, machine).map(
      ({ span, ...use }): NameUse => ({
        ...use,
        start: cell.start + span.start,
        end: cell.start + span.end,
        ...(machine && { machine: machine.name }),
      }),
    );
  });
}

/** By cell; a machine's own cell is under that machine. */
function machinesUpTo({ workbook, split }: Book, end: number): readonly (Machine | undefined)[] {
  const machines: (Machine | undefined)[] = [];
  let inForce: Machine | undefined;
  let next = 0;
  for (let cell = 0; cell < Math.min(end, split.cells.length); cell++) {
    for (; next < workbook.entries.length && workbook.entries[next]!.cell <= cell; next++) {
      const { entry } = workbook.entries[next]!;
      if (entry.kind === 'machine') inForce = entry.machine;
    }
    machines.push(inForce);
  }
  return machines;
}

type Use = Omit<NameUse, 'start' | 'end' | 'machine'> & { readonly span: Span };

/** Cached as long as the text of the cell is the same. */
const known = new WeakMap<
  readonly string[],
  { readonly machine: Machine | undefined; readonly uses: readonly Use[] }
>();

function usesIn(readings: readonly string[], machine: Machine | undefined): readonly Use[] {
  const before = known.get(readings);
  if (before && before.machine === machine) return before.uses;
  const uses = readings.flatMap((reading) => inCell(reading, machine));
  known.set(readings, { machine, uses });
  return uses;
}

function inCell(reading: string, machine: Machine | undefined): Use[] {
  const { places } = readTree(reading);
  const kind = kindOf(places);
  if (!kind) return [];
  const cell = new CellNames(reading, places, kind, machine);
  return [...places].flatMap(([path, place]) => cell.at(keysOf(path), place));
}

/** Subjects of a kind that name an element of the path. */
const NAMES_OF_PATH: ReadonlySet<Subject> = new Set(['station', 'part']);

class CellNames {
  private readonly reading: string;
  private readonly kind: Kind;
  private readonly machine: Machine | undefined;
  /** The station or part of the cell. */
  private readonly about: PathElement | undefined;

  constructor(reading: string, places: ReadonlyMap<Path, Place>, kind: Kind, machine: Machine | undefined) {
    this.reading = reading;
    this.kind = kind;
    this.machine = machine;
    const place = places.get(pathTo(kind));
    const name = place && this.value('station', place)?.name;
    this.about = machine?.path.find((element) => element.name === name);
  }

  at(path: readonly string[], place: Place): Use[] {
    const [top, second, third, fourth] = path;
    const inside =
      this.kind === 'machine' ? this.inMachine(path, place) : this.kind === 'work' ? this.inWork(path, place) : [];
    const depth = path.length;
    if (top === this.kind && depth === 1 && NAMES_OF_PATH.has(CELL_KINDS[this.kind].subject))
      return this.listed(this.value('station', place));
    switch (`${this.kind} ${top}`) {
      case 'power with':
        return depth === 2 && second !== undefined
          ? [...this.listed(this.key('station', place)), ...this.listed(this.value('stop', place, second))]
          : [];
      case 'limits stations':
        return depth === 2 ? this.listed(this.key('station', place)) : [];
      case 'adjust turn':
      case 'adjust no further':
        return depth === 2 ? this.listed(this.key('screw', place, this.about?.mount)) : [];
      case 'marks shots':
        if (depth === 2 && place.key) return this.listed(this.key('stop', place, this.about?.name));
        if (depth === 3 && third === 'at') return this.listed(this.value('stop', place, this.about?.name));
        if (depth === 4 && third === 'with')
          return [...this.listed(this.key('station', place)), ...this.listed(this.value('stop', place, fourth))];
        return [];
      default:
        return second === undefined || inside.length > 0 ? inside : [];
    }
  }

  private inMachine([top, second, third, fourth]: readonly string[], place: Place): Use[] {
    if (top === 'machine') return this.listed(this.value('machine', place, undefined, true));
    if (top === 'path' && second !== undefined) {
      if (third === undefined) return this.listed(this.key('station', place, undefined, true));
      if (third === 'mount') return this.listed(this.value('mount', place));
      if (third === 'stops' && fourth !== undefined) return this.listed(this.key('stop', place, second, true));
    }
    if (top === 'mounts' && second !== undefined) {
      if (third === undefined) return this.listed(this.key('mount', place, undefined, true));
      if (third === 'screws' && fourth !== undefined && place.key) return this.screw(second, fourth, place);
    }
    return top === 'care' && second !== undefined ? this.listed(this.key('station', place)) : [];
  }

  /** `screws/A` itself, and not `screws/A/right`. */
  private screw(mount: string, name: string, place: Place): Use[] {
    const use = this.key('screw', place, mount, true);
    return use?.name === name ? [use] : [];
  }

  /** `M2.far`, `corner.A.right`, `beam.diameter.M2` in arithmetic. */
  private inWork(path: readonly string[], { letters, span }: Place): Use[] {
    const { machine } = this;
    if (path.length !== 1 || path[0] === 'work' || letters === undefined || !machine) return [];
    const text = this.reading.slice(span.start, span.end);
    const widths = [...text.matchAll(/\bbeam\.diameter\.([A-Za-z]\w*)/g)].flatMap(
      ({ 0: whole, 1: name, index }): Use[] => {
        const start = span.start + index + whole.length - name!.length;
        return machine.path.some((element) => element.name === name)
          ? [{ role: 'station', name: name!, isDefinition: false, span: { start, end: start + name!.length } }]
          : [];
      },
    );
    const dotted = [...text.matchAll(/\b([A-Za-z]\w*)\.([A-Za-z]\w*)/g)].flatMap((match): Use[] => {
      const [whole, first, second] = match as unknown as [string, string, string];
      const start = span.start + match.index;
      const use = (role: Role, name: string, at: number, of?: string): Use => ({
        role,
        name,
        isDefinition: false,
        span: { start: at, end: at + name.length },
        ...(of !== undefined && { of }),
      });
      const secondStart = start + whole.length - second.length;
      const element = machine.path.find(({ name }) => name === first);
      if (element)
        return [
          use('station', first, start),
          ...(element.stops && Object.hasOwn(element.stops, second) ? [use('stop', second, secondStart, first)] : []),
        ];
      const mount = lookup(machine.mounts, first);
      return mount
        ? [
            use('mount', first, start),
            ...(Object.hasOwn(mount.screws, second) ? [use('screw', second, secondStart, first)] : []),
          ]
        : [];
    });
    return [...dotted, ...widths];
  }

  private key(role: Role, { key }: Place, of?: string, isDefinition = false): Use | undefined {
    return key && this.use(role, key, of, isDefinition);
  }

  private value(role: Role, { span, letters }: Place, of?: string, isDefinition = false): Use | undefined {
    return letters === undefined ? undefined : this.use(role, span, of, isDefinition);
  }

  /** The name without its quotes; undefined if it is no valid name. */
  private use(role: Role, { start, end }: Span, of: string | undefined, isDefinition: boolean): Use | undefined {
    const written = this.reading.slice(start, end);
    const quote = /^["']/.test(written) ? 1 : 0;
    const name = written.slice(quote, written.length - quote);
    if (!/^[A-Za-z][A-Za-z0-9_]*$/.test(name)) return undefined;
    return {
      role,
      name,
      isDefinition,
      span: { start: start + quote, end: end - quote },
      ...(of !== undefined && { of }),
    };
  }

  private listed(use: Use | undefined): Use[] {
    const isTube = use?.role === 'station' && use.name === TUBE.name;
    return use && !isTube ? [use] : [];
  }
}

/** The name at the cursor. */
export function nameAt(book: Book, cell: number, offset: number): NameUse | undefined {
  return namesIn(book, cell, cell + 1).find(({ start, end }) => start <= offset && offset <= end);
}

/** Whether two names refer to the same thing. */
export function isSame(one: NameUse, other: NameUse): boolean {
  return one.role === other.role && one.name === other.name && one.of === other.of && one.machine === other.machine;
}
