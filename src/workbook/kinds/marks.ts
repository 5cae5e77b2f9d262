/**
 * Readings of one station. Each shot is a place of the carriages with its marks. A shot with an error is reported and
 * left out; the others are used. In `spans` a shot's path is that of its mark, or of its list of marks.
 */
import * as z from 'zod';
import {
  child,
  isBelow,
  isVertical,
  pathTo,
  type Direction,
  type Machine,
  type Mark,
  type Path,
  type PathElement,
  type Shot,
} from '../../model/index.ts';
import { resolveMark, SHAPES, type Mark as WrittenMark, type Measured, type ViewingSide } from '../quantities/index.ts';
import { arrives, elementNamed } from '../names.ts';
import { mapping, named, oneOrMore, word } from '../shapes.ts';
import type { Fields } from '../fields.ts';
import { carriages, ownPlace, type Place } from './carriages.ts';
import type { Common } from './common.ts';
import type { Cell, CellKind } from './kind.ts';
import { pulse, pulseSchema } from './pulse.ts';

const SHOTS = pathTo('shots');

/** A mark as a mapping: signed lengths in the viewer's frame, up = rear on a vertical leg. */
interface SignedMark {
  readonly right?: Measured | undefined;
  readonly up?: Measured | undefined;
  readonly size?: Measured | undefined;
  readonly shape?: Mark['shape'] | undefined;
}
type AnyMark = WrittenMark | SignedMark;

interface WrittenShot {
  readonly at?: Place | undefined;
  readonly with?: Readonly<Record<string, Place>> | undefined;
  readonly height?: Measured | undefined;
  readonly mark: readonly AnyMark[];
}

/** A shot with the paths of the whole shot, of its place and of its mark. */
interface PlacedShot extends WrittenShot {
  readonly whole: Path;
  readonly place: Path;
  readonly path: Path;
}

export const marks: CellKind<'marks', ReturnType<typeof schema>> = {
  subject: 'station',
  skeleton: 'marks: ${1:M1}\nshots: $0\n',
  about: ({ station }) => station,
  schema,
  isOptional: (path) => isBelow(path, SHOTS),
  meaning(value, cell) {
    const machine = cell.machine();
    const station = machine && elementNamed(machine, value.marks, cell, pathTo('marks'));
    if (machine === undefined || station === undefined) return undefined;
    const leg = { machine, station, runs: arrives(machine, station.name), side: value.seen, cell };
    if (value.seen !== undefined && isVertical(leg.runs)) {
      const word = `seen: ${value.seen}`;
      cell.report(pathTo('seen'), 'mark.words', {
        word,
        station: station.name,
        runs: leg.runs,
        words: 'left, right, front, rear',
      });
      return undefined;
    }
    const shots = value.shots
      .filter(({ whole }) => !cell.dropped.has(whole))
      .flatMap((written) => resolved(written, leg) ?? []);
    if (shots.length === 0) return undefined;
    return {
      kind: 'marks',
      station: station.name,
      shots,
      ...((shots.length < value.shots.length || [...cell.dropped].some((path) => isBelow(path, SHOTS))) && {
        incomplete: true,
      }),
      ...(value.tape && { tape: value.tape }),
      ...(value.pulse && { pulse: pulse(value.pulse, machine.source, cell) }),
    };
  },
};

function schema(common: Common, fields: Fields) {
  return mapping(
    {
      marks: fields.name('The station whose tape was read.', 'M2'),
      shots: shotsSchema(fields),
      seen: word(
        ['against beam'],
        'The tape was read from behind: left and right swap. Not on vertical legs.',
      ).optional(),
      tape: word(['fresh', 'reused'], 'Whether a fresh piece of tape was used.').optional(),
      pulse: pulseSchema(fields, 'The pulse of these shots.').optional(),
      ...common,
    },
    'a marks cell',
  );
}

/** By stop, as a list, or one single mark; converted to a list. */
function shotsSchema(fields: Fields) {
  const expected = 'stops and their marks, such as `{near: 1.5 right 2.0 down}`, or a list of shots';
  const mark = markSchema(fields);
  const several = oneOrMore(mark, 'a mark such as `1.5 right 2.0 down`, or a list of marks', {
    examples: ['1.5 right 2.0 down', ['1.5 right 2.0 down', '1 right 2.5 down']],
    description: 'What the tape shows, looking along the beam at the burnt side; a list for repeated shots.',
  });
  const byStop = named(several, expected, {
    description: 'By stop, what the tape shows.',
    examples: [{ near: '1.5 right 2.0 down', far: '6.0 right 5.5 down' }],
  });
  const shot = z.union([shotSchema(fields, several), mark], {
    error: () => 'a mark, or a shot such as `{at: far, mark: [1.5 right 2.0 down, 1 right 2.5 down]}`',
  });
  const byPlace = z.array(shot, { error: () => expected }).min(1);
  return z
    .union([byStop.transform(shotsByStop), byPlace.transform(shotsInList), mark.transform(singleShot)], {
      error: () => expected,
    })
    .meta({
      description:
        'The shots: by stop, as a list with the place of every carriage, or one bare mark at a station that has one leg.',
      examples: [{ near: '1.5 right 2.0 down' }, [{ at: 'far', with: { M2: 'far' }, mark: 'centre' }], 'centre'],
    });
}

function shotSchema(fields: Fields, mark: z.ZodType<readonly AnyMark[]>) {
  const place = fields.place('A stop, or a leg.', 'far', '410 mm');
  return mapping(
    {
      at: place.optional(),
      with: named(place, 'carriages and their places', {
        description: 'Where the other carriages were. Default: each at its nearest stop.',
        examples: [{ M2: 'far' }],
      }).optional(),
      mark,
      height: fields
        .length(
          'How far below the lens station this tape was. Do not move the tape between the shots on it.',
          ['80 mm'],
          'not negative',
        )
        .optional(),
    },
    'a shot such as `{at: far, with: {M2: far}, mark: 1.5 right 2.0 down}`',
  );
}

function markSchema(fields: Fields) {
  const map = mapping(
    {
      right: fields
        .length('To the right of the centre, looking along the beam at the burnt side; negative to the left.', [
          '1.5 mm',
        ])
        .optional(),
      up: fields.length('Above the centre; negative below. On a vertical leg: to the rear.', ['-2.0 mm']).optional(),
      size: fields.length('Diameter of the burn.', ['5 mm'], 'positive').optional(),
      shape: word(SHAPES, 'A crescent means a clipped beam; a double mark means a loose or cracked optic.').optional(),
    },
    'a mark such as `{right: 1.5, up: -2.0}`',
  );
  const text = fields.mark(
    'A mark, without commas. Omit a direction only if you did not read it.',
    '1.5 right 2.0 down',
    '2 mm at 4:30',
    'centre',
    'none',
    '1 left size 5 mm shape oval',
    '1.5 right 2.0 down ± 0.3 mm',
  );
  return z.union([text, map], { error: () => 'a mark such as `1.5 right 2.0 down`' });
}

function shotsByStop(shots: Readonly<Record<string, readonly AnyMark[]>>): PlacedShot[] {
  return Object.entries(shots).map(([at, mark]) => {
    const path = child(SHOTS, at);
    return { at, mark, whole: path, place: path, path };
  });
}

function shotsInList(shots: readonly (WrittenShot | AnyMark)[]): PlacedShot[] {
  return shots.map((shot, i) => {
    const whole = child(SHOTS, i);
    if (!('mark' in shot)) return { mark: [shot], whole, place: whole, path: whole };
    return { ...shot, whole, place: shot.at === undefined ? whole : child(whole, 'at'), path: child(whole, 'mark') };
  });
}

function singleShot(mark: AnyMark): PlacedShot[] {
  return [{ mark: [mark], whole: SHOTS, place: SHOTS, path: SHOTS }];
}

interface Leg {
  readonly machine: Machine;
  readonly station: PathElement;
  /** The direction of the beam at the tape. */
  readonly runs: Direction;
  readonly side: ViewingSide | undefined;
  readonly cell: Cell;
}

/** Undefined if any part of the shot is unknown: a mark at an unknown place is worse than none. */
function resolved(written: PlacedShot, leg: Leg): Shot | undefined {
  const { machine, station, cell } = leg;
  const before = cell.reported();
  const at = ownPlace(machine, station, written.at, written.place, written.whole === written.place, cell);
  if (at === undefined) return undefined;
  if (written.height !== undefined && station.kind !== 'lens') {
    cell.report(
      child(written.whole, 'height'),
      'cell.together',
      { place: station.name, reason: '`height` is for tapes below the lens' },
      { atKey: true },
    );
  }
  const others = written.with ?? {};
  const legs = carriages(machine, station, at, others, written.whole, cell);
  const read = written.mark.map((mark, i) => place(mark, leg, child(written.path, i)));
  if (cell.reported() > before) return undefined;
  return { at, carriages: legs, with: others, height: written.height?.value ?? 0, marks: read, path: written.path };
}

/** The mark in the viewer's frame. A mapping has the viewer's signs already. */
function place(written: AnyMark, leg: Leg, path: Path): Mark {
  if (!('place' in written)) return signed(written, leg, path);
  const { value, problems } = resolveMark(written, leg.runs, leg.side);
  const u = written.u === undefined ? value?.u : { right: written.u, up: written.u };
  for (const { code, from, to, facts } of problems) {
    const problem = { code, facts: { ...facts, station: leg.station.name } };
    leg.cell.pass(path, problem, to > from ? { from, to } : {});
  }
  const form = {
    ...(written.size !== undefined && { size: written.size }),
    ...(written.shape !== undefined && { shape: written.shape }),
  };
  if (written.place.kind === 'none') return { none: true, ...form };
  return {
    ...(value?.right !== undefined && { right: value.right }),
    ...(value?.up !== undefined && { up: value.up }),
    ...(u && { u: ofRead(u, value ?? {}) }),
    ...form,
  };
}

/** The uncertainties of the coordinates that were read. */
function ofRead(u: NonNullable<Mark['u']>, { right, up }: Pick<Mark, 'right' | 'up'>): NonNullable<Mark['u']> {
  return {
    ...(right !== undefined && u.right !== undefined && { right: u.right }),
    ...(up !== undefined && u.up !== undefined && { up: u.up }),
  };
}

function signed({ right, up, size, shape }: SignedMark, { side, cell }: Leg, path: Path): Mark {
  const sign = side === 'against beam' ? -1 : 1;
  for (const [key, part] of Object.entries({ right, up }))
    if (part?.u === 0) cell.report(child(path, key), 'mark.uncertainty', { reason: '± must be positive' });
  const u = { ...(right?.u !== undefined && { right: right.u }), ...(up?.u !== undefined && { up: up.u }) };
  return {
    ...(right && { right: sign * right.value + 0 }),
    ...(up && { up: up.value }),
    ...(Object.keys(u).length > 0 && { u }),
    ...(size && { size: size.value }),
    ...(shape && { shape }),
  };
}
