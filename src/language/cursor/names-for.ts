/**
 * User-defined names that fit a place: stations, stops, screws and mounts of the machine in force, each with a
 * description.
 */
import {
  isVertical,
  lengthsIn,
  lookup,
  pathTo,
  type Kind,
  type Machine,
  type PathElement,
  type Units,
} from '../../model/index.ts';
import { CELL_KINDS } from '../../workbook/index.ts';

export interface NamedThing {
  readonly name: string;
  readonly what: string;
}

export const TUBE: NamedThing = { name: 'tube', what: 'the tube' };

/**
 * @param path of the place; for a key, of the mapping that contains it
 * @param top the cell's top-level values, by key
 */
export function namesFor(
  machine: Machine,
  kind: Kind,
  path: readonly string[],
  part: 'key' | 'value',
  top: Readonly<Record<string, string>>,
): readonly NamedThing[] {
  const place = `${kind} ${part} ${pathTo(...path.map((key) => (/^\d+$/.test(key) ? '#' : key)))}`;
  const station = machine.path.find(({ name }) => name === top[kind]);
  switch (place) {
    case 'limits key stations':
      return elementsOf(machine);
    case 'adjust value adjust':
      return [
        TUBE,
        ...machine.path.filter(({ kind: of }) => of === 'mirror').map((one) => element(one, machine.units)),
      ];
    case 'adjust key turn':
    case 'adjust key no further':
      return station ? screwsOf(machine, station) : [];
    case 'marks key shots':
    case 'marks value shots/#/at':
      return station ? stopsOf(station, machine.units) : [];
    case 'marks key shots/#/with':
      return station ? othersOf(machine, station) : [];
    case 'power key with':
      return machine.path.filter(({ stops }) => stops).map((one) => element(one, machine.units));
    default:
      return place === `${kind} value ${kind}` ? subjectsOf(machine, kind) : inPath(machine, kind, path, part);
  }
}

/** What the kind's word may name. */
function subjectsOf(machine: Machine, kind: Kind): readonly NamedThing[] {
  const { subject } = CELL_KINDS[kind];
  if (subject === 'station') return elementsOf(machine);
  return subject === 'part' ? [...elementsOf(machine), TUBE] : [];
}

function inPath(machine: Machine, kind: Kind, path: readonly string[], part: 'key' | 'value'): readonly NamedThing[] {
  const [top, second, key, name] = path;
  if (kind === 'marks' && part === 'value' && top === 'shots' && key === 'with' && name !== undefined)
    return stopsOn(machine, name);
  if (kind === 'power' && part === 'value' && top === 'with' && second !== undefined) return stopsOn(machine, second);
  if (kind === 'machine' && part === 'value' && top === 'path' && key === 'mount')
    return Object.keys(machine.mounts).map((mount) => ({ name: mount, what: 'a mount' }));
  if (kind === 'machine' && part === 'key' && top === 'care' && path.length === 1)
    return [...elementsOf(machine), TUBE];
  return [];
}

function stopsOn(machine: Machine, name: string): NamedThing[] {
  const other = machine.path.find((candidate) => candidate.name === name);
  return other ? stopsOf(other, machine.units) : [];
}

function elementsOf({ path, units }: Machine): NamedThing[] {
  return path.map((one) => element(one, units));
}

function element({ name, kind, leg, stops, rides }: PathElement, units: Units): NamedThing {
  const where = stops
    ? `rides ${rides ?? 'a carriage'}, ${Object.keys(stops).join(', ')}`
    : leg
      ? `${lengthsIn(units).given(leg.value)} from the element before`
      : '';
  return {
    name,
    what: [kind === 'station' ? 'an aperture in the path' : `a ${kind}`, where].filter(Boolean).join('; '),
  };
}

function screwsOf(machine: Machine, { mount }: PathElement): NamedThing[] {
  const held = mount === undefined ? undefined : lookup(machine.mounts, mount);
  const { given } = lengthsIn(machine.units);
  return Object.entries(held?.screws ?? {}).map(([name, { right, up }]) => ({
    name,
    what:
      right && up
        ? `facing the screw heads: ${given(Math.abs(right.value))} ${right.value < 0 ? 'left' : 'right'}, ${given(Math.abs(up.value))} ${up.value < 0 ? 'down' : 'up'}`
        : 'its place is not known',
  }));
}

function stopsOf({ stops }: PathElement, units: Units): NamedThing[] {
  if (!stops) return [{ name: 'here', what: 'its only place' }];
  return Object.entries(stops).map(([name, { value }]) => ({ name, what: lengthsIn(units).given(value) }));
}

/** The other carriages that move the mark here. */
function othersOf(machine: Machine, station: PathElement): NamedThing[] {
  return machine.path
    .slice(0, machine.path.indexOf(station))
    .filter(({ stops }) => stops)
    .map((one) => element(one, machine.units));
}

/** The words for a mark's directions on a leg: on a vertical one the machine's only. */
export function markWords(runs: Parameters<typeof isVertical>[0]): readonly string[] {
  return isVertical(runs) ? ['right', 'left', 'rear', 'front'] : ['right', 'left', 'up', 'down'];
}
