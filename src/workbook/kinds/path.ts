/**
 * The elements that the beam meets, in order: a mirror reflects it, a lens has a focal length, a station is an
 * aperture.
 */
import type * as z from 'zod';
import {
  child,
  DIRECTIONS,
  lookup,
  nearest,
  pathTo,
  type Direction,
  type ElementKind,
  type Path,
  type PathElement,
  type Quantity,
} from '../../model/index.ts';
import { HERE, TUBE } from '../names.ts';
import { mapping, named, oneOrMore, text, word } from '../shapes.ts';
import type { Fields } from '../fields.ts';
import type { Cell } from './kind.ts';

export function pathSchema(fields: Fields) {
  const leg = fields.length(
    'From the element before (the tube’s exit for the first) to the tape here.',
    ['90 mm', '90 mm ± 1 mm'],
    'positive',
  );
  const direction = word(DIRECTIONS, 'A direction, as you stand in front of the machine.');
  const element = mapping(
    {
      leg: leg.optional(),
      stops: named(leg, 'named stops and their legs', {
        description: 'The leg at each named stop of the carriage that this element rides on.',
        examples: [{ near: '130 mm', far: '690 mm' }],
      }).optional(),
      rides: fields.name('The carriage that it rides on.', 'gantry', 'head').optional(),
      aperture: fields.length('Diameter of the aperture that the tape covers.', ['20 mm'], 'positive'),
      sends: word(
        DIRECTIONS,
        'The direction in which this mirror sends the beam, at a right angle to its arrival.',
      ).optional(),
      mount: fields.name('Its mount, described under `mounts`.', 'corner').optional(),
      inset: fields
        .length('Of a mirror: from its tape to its face along the beam (default 0).', ['8 mm'], 'not negative')
        .optional(),
      moves: oneOrMore(
        direction,
        'a direction, or a list of them',
        {
          description:
            'Directions in which its block can be moved, each both ways; `[]` where it cannot. Default: across the beam for the first mirror’s, others none.',
          examples: [['up', 'left']],
        },
        0,
      ).optional(),
      focal: fields.length('Focal length: makes it a lens.', ['50.8 mm'], 'positive').optional(),
      shape: word(['plano-convex', 'meniscus', 'biconvex'], 'Shape of the lens (default plano-convex).').optional(),
      material: text('What it is made of.', 'ZnSe').optional(),
    },
    'an element such as `{leg: 90 mm, aperture: 20 mm, sends: front}`',
  );
  return named(element, 'the elements that the beam meets', {
    description: 'In the order in which the beam meets them; names are yours.',
    examples: [{ M1: { leg: '90 mm', aperture: '20 mm', sends: 'front' } }],
  });
}

type Written = z.output<ReturnType<typeof pathSchema>>;

export function path(
  written: Written,
  fires: Direction,
  mounts: Readonly<Record<string, unknown>>,
  cell: Cell,
): PathElement[] {
  let runs = fires;
  if (Object.keys(written).length === 0)
    cell.report(pathTo('path'), 'cell.missing', { key: 'an element', place: '`path`' });
  return Object.entries(written).map(([name, element]) => {
    const at = pathTo('path', name);
    const { sends, mount } = element;
    if (name === TUBE) cell.report(at, 'name.reserved', { name }, { atKey: true });
    if (mount !== undefined && lookup(mounts, mount) === undefined) {
      cell.report(
        child(at, 'mount'),
        'machine.mount',
        { name: mount },
        { suggestion: nearest(mount, Object.keys(mounts)) },
      );
    }
    checkLegs(element, at, name, cell);
    if (sends !== undefined) {
      if (axis(sends) === axis(runs)) cell.report(child(at, 'sends'), 'machine.sends', { name, sends, arrives: runs });
      runs = sends;
    }
    return described(name, element, kindOf(element, at, name, cell));
  });
}

function checkLegs({ leg, stops }: Written[string], at: Path, name: string, cell: Cell): void {
  if (leg === undefined && stops === undefined)
    cell.report(at, 'cell.missing', { key: 'leg` or `stops', place: name }, { atKey: true });
  if (leg !== undefined && stops !== undefined) {
    cell.report(
      child(at, 'leg'),
      'cell.together',
      { place: name, reason: 'write one `leg`, or `stops` if it rides on a carriage' },
      { atKey: true },
    );
  }
  if (stops === undefined) return;
  if (Object.hasOwn(stops, HERE))
    cell.report(child(child(at, 'stops'), HERE), 'name.reserved', { name: HERE }, { atKey: true });
  if (Object.keys(stops).length === 0) cell.report(child(at, 'stops'), 'cell.missing', { key: 'a stop', place: name });
}

function kindOf(
  { sends, focal, inset, shape, mount }: Written[string],
  at: Path,
  name: string,
  cell: Cell,
): ElementKind {
  const mirrors = sends === undefined && focal === undefined ? (inset && 'inset') || (mount && 'mount') : undefined;
  if (mirrors !== undefined)
    cell.report(child(at, mirrors), 'cell.missing', { key: 'sends', place: name }, { atKey: true });
  if (sends !== undefined && focal !== undefined) {
    cell.report(
      child(at, 'focal'),
      'cell.together',
      { place: name, reason: 'a mirror has `sends`, a lens has `focal`' },
      { atKey: true },
    );
  }
  if (shape !== undefined && focal === undefined)
    cell.report(child(at, 'shape'), 'cell.missing', { key: 'focal', place: name }, { atKey: true });
  return sends !== undefined ? 'mirror' : focal !== undefined ? 'lens' : 'station';
}

function described(name: string, element: Written[string], kind: ElementKind): PathElement {
  const { leg, stops, rides, aperture, sends, mount, inset, moves, focal, shape, material } = element;
  return {
    name,
    kind,
    ...(leg && { leg }),
    ...(stops && { stops: stops as Record<string, Quantity> }),
    ...(rides !== undefined && { rides }),
    aperture: aperture.value,
    ...(sends && { sends }),
    ...(mount !== undefined && { mount }),
    inset: inset?.value ?? 0,
    ...(moves && { moves }),
    ...(focal && { focal }),
    ...(kind === 'lens' && { shape: shape ?? 'plano-convex' }),
    ...(material !== undefined && { material }),
  };
}

function axis(direction: Direction): string {
  if (direction === 'left' || direction === 'right') return 'x';
  return direction === 'front' || direction === 'rear' ? 'y' : 'z';
}
