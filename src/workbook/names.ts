/**
 * Looks up the names of a cell in the machine in force. An unknown name is reported once, with the nearest known one:
 * case is significant, and a slip of one letter is the usual reason.
 */
import { nearest, type Direction, type Machine, type Path, type PathElement } from '../model/index.ts';
import type { Cell, Report } from './kinds/kind.ts';

/** The tube is a part like the elements of the path: it is moved, cleaned and replaced. */
export const TUBE = 'tube';
/** The only stop of a station that does not ride. */
export const HERE = 'here';

export function elementNamed(
  machine: Machine,
  name: string,
  cell: Cell,
  path: Path,
  report?: Report,
): PathElement | undefined {
  const element = machine.path.find((element) => element.name === name);
  if (element === undefined)
    unknown(
      cell,
      path,
      'station',
      name,
      machine,
      machine.path.map((element) => element.name),
      report,
    );
  return element;
}

/** Whether the name is an element of the path, or the tube. */
export function isPart(machine: Machine, name: string, cell: Cell, path: Path, report?: Report): boolean {
  const parts = [TUBE, ...machine.path.map((element) => element.name)];
  if (!parts.includes(name)) unknown(cell, path, 'part', name, machine, parts, report);
  return parts.includes(name);
}

// biome-ignore lint/complexity/useMaxParams: one message in all its parts
export function unknown(
  cell: Cell,
  path: Path,
  what: string,
  name: string,
  machine: Machine,
  names: readonly string[],
  report: Report = {},
): void {
  cell.report(
    path,
    'name.unknown',
    { what, name, machine: machine.name },
    { ...report, suggestion: nearest(name, names) },
  );
}

/** The direction of the beam that arrives at an element. */
export function arrives(machine: Machine, name: string): Direction {
  let direction = machine.source.fires;
  for (const element of machine.path) {
    if (element.name === name) break;
    direction = element.sends ?? direction;
  }
  return direction;
}
