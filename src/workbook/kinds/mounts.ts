/** The mounts of mirrors: their screws, where the tips act, and what a turn does. */
import type * as z from 'zod';
import { child, nearest, pathTo, type MountDescription, type Path, type Quantity } from '../../model/index.ts';
import { mapping, named, text, word } from '../shapes.ts';
import type { Fields } from '../fields.ts';
import type { Cell } from './kind.ts';

/** Default relative standard uncertainty of the effect of a turn: places are measured with a rule. */
const DOUBT = 0.2;
/**
 * Minimum height of the triangle of tips, relative to its longest side: a flatter one would amplify the rounding of the
 * places.
 */
const FLATTEST = 0.02;

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: one schema
export function mountsSchema(fields: Fields) {
  const side = (description: string, example: string) => fields.length(description, [example]);
  const screw = mapping(
    {
      right: side(
        'To the right of the mirror’s centre, facing the screw heads; negative to the left.',
        '-22 mm',
      ).optional(),
      up: side('Above the mirror’s centre; negative below.', '22 mm').optional(),
    },
    'a place such as `{right: -22 mm, up: 22 mm}`',
  );
  const pivot = mapping(
    {
      right: side('To the right of the mirror’s centre, facing the screw heads.', '-22 mm'),
      up: side('Above the mirror’s centre.', '-22 mm'),
    },
    'a place such as `{right: -22 mm, up: -22 mm}`',
    { description: 'A fixed third point, given as the screws are.', examples: [{ right: '-22 mm', up: '-22 mm' }] },
  );
  const mount = mapping(
    {
      screws: named(screw, 'screws and their places', {
        description:
          'Where each tip bears, facing the screw heads. Without places (`{}`), the effect of a turn is estimated from the marks.',
        examples: [{ A: { right: '-22 mm', up: '22 mm' } }, { A: {}, B: {} }],
      }),
      thread: text(
        'Thread of the screws by its name. `LH` after it means a left-hand thread: anticlockwise turns it in.',
        'M4',
        'M4x0.5',
        '8-32 UNC',
        'M4 LH',
      ).optional(),
      pitch: fields.length('Advance of a screw in one turn, in place of `thread`.', ['0.7 mm'], 'positive').optional(),
      locks: word(
        ['nut', 'none'],
        'Whether the screws have lock nuts (default nut). With nuts, the advice includes loosening them before the first turn of a mirror and tightening them after the last.',
      ).optional(),
      in: word(['toward beam', 'away from beam'], 'Which way turning in moves that corner of the mirror.').optional(),
      heads: word(
        ['behind', 'beam side'],
        'Where the screw heads are (default behind). Places are given as you face them.',
      ).optional(),
      knob: fields
        .length('Rim diameter of the knob, for turns given as travel of the rim.', ['14 mm'], 'positive')
        .optional(),
      doubt: fields.ratio('Relative standard uncertainty of the effect of a turn (default 20 %).', ['20 %']).optional(),
      pivot: pivot.optional(),
    },
    'a mount such as `{screws: {A: {}, B: {}}}`',
  );
  return named(mount, 'mounts', {
    description: 'By name, the mounts that hold the mirrors.',
    examples: [{ corner: { screws: { A: {}, B: {} }, thread: 'M4' } }],
  });
}

type Mount = z.output<ReturnType<typeof mountsSchema>>[string];
type Tip = { readonly right: Quantity; readonly up: Quantity };

export function mounts(written: Readonly<Record<string, Mount>>, cell: Cell): Record<string, MountDescription> {
  return Object.fromEntries(Object.entries(written).map(([name, mount]) => [name, described(name, mount, cell)]));
}

function described(name: string, mount: Mount, cell: Cell): MountDescription {
  const at = pathTo('mounts', name);
  const { thread, pitch: explicit, in: sense, locks, heads, knob, doubt, pivot } = mount;
  const placed = checkPlaces(name, mount, at, cell);
  if (thread !== undefined && explicit !== undefined) {
    cell.report(
      child(at, 'pitch'),
      'cell.together',
      { place: name, reason: '`thread` already gives the pitch' },
      { atKey: true },
    );
  }
  if (placed && thread === undefined && explicit === undefined)
    cell.report(at, 'cell.missing', { key: 'thread` or `pitch', place: name }, { atKey: true });
  if (placed && sense === undefined) cell.report(at, 'cell.missing', { key: 'in', place: name }, { atKey: true });
  const pitch = explicit?.value ?? (thread === undefined ? undefined : cell.threads.pitch(thread));
  if (thread !== undefined && explicit === undefined && pitch === undefined) {
    cell.report(
      child(at, 'thread'),
      'machine.thread',
      { thread },
      { suggestion: nearest(thread, cell.threads.names()) },
    );
  }
  return {
    screws: mount.screws as MountDescription['screws'],
    ...(pivot && { pivot }),
    ...(pitch !== undefined && { pitch }),
    ...(thread !== undefined && { thread }),
    hand: thread !== undefined && cell.threads.isLeftHanded(thread) ? 'left' : 'right',
    locks: locks ?? 'nut',
    in: sense ?? 'toward beam',
    heads: heads ?? 'behind',
    ...(knob && { knob: knob.value }),
    doubt: doubt?.value ?? DOUBT,
  };
}

/** Whether the screws have places. Either all have them or none; with a pivot they form a triangle. */
function checkPlaces(name: string, { screws, pivot }: Mount, at: Path, cell: Cell): boolean {
  const all = Object.values(screws);
  const placed = all.filter((screw): screw is Tip => screw.right !== undefined && screw.up !== undefined);
  const none = all.every((screw) => screw.right === undefined && screw.up === undefined);
  const tips = pivot === undefined ? placed : [...placed, pivot];
  const reason =
    all.length === 0
      ? 'it has no screws'
      : none
        ? pivot === undefined
          ? undefined
          : 'a pivot needs screws with places'
        : placed.length < all.length
          ? 'some screws have `right` and `up`, others do not'
          : tips.length !== 3
            ? `there are ${tips.length}, but a plate rests on three`
            : flat(tips)
              ? 'they are on one line'
              : undefined;
  if (reason !== undefined)
    cell.report(child(at, 'screws'), 'machine.places', { mount: name, reason }, { atKey: true });
  return !none;
}

function flat(tips: readonly Tip[]): boolean {
  const [a, b, c] = tips.map(({ right, up }) => [right.value, up.value] as const) as [Point, Point, Point];
  const longest = Math.max(distance(a, b), distance(b, c), distance(c, a));
  const twiceArea = Math.abs((b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]));
  return twiceArea <= FLATTEST * longest * longest;
}

type Point = readonly [right: number, up: number];

function distance(a: Point, b: Point): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1]);
}
