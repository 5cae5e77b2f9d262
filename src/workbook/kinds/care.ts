/** What was found and done to an optic, and what power arrived: both are about one part, and neither moves a screw. */
import type { CareEntry, Did, Found } from '../../model/index.ts';
import { isPart, elementNamed } from '../names.ts';
import { mapping, named, oneOrMore, text, word } from '../shapes.ts';
import type { Fields } from '../fields.ts';
import { checkPlaces } from './carriages.ts';
import { common, type CellKind } from './kind.ts';

/** In the order in which they are offered: the worst last. */
const FOUND = [
  'clean',
  'dusty',
  'hazy',
  'spotted',
  'scratched',
  'burnt',
  'pitted',
  'cracked',
  'loose',
] as const satisfies readonly Found[];
const DID = [
  'inspected',
  'cleaned in place',
  'removed and cleaned',
  'tightened',
  'replaced',
] as const satisfies readonly Did[];

/** The word in the text of a care cell that cannot be read whole: a slip elsewhere in it must not hide a crack. */
export function foundIn(text: string): Found | undefined {
  const word = /(?:^|[{,])[ \t]*found[ \t]*:[ \t]*["']?(\w+)/m.exec(text)?.[1];
  return FOUND.find((one) => one === word);
}

export const care: CellKind<ReturnType<typeof careSchema>> = {
  schema: careSchema,
  meaning({ care: part, found, did, with: using, refit }, cell) {
    const machine = cell.machine();
    if (machine === undefined || !isPart(machine, part, cell, 'care')) return undefined;
    if (found === undefined && did === undefined && refit === undefined) {
      cell.report('care', 'cell.missing', { key: 'found` or `did', place: 'a care cell' });
    }
    const element = machine.path.find(({ name }) => name === part);
    if (refit !== undefined && element?.kind !== 'lens') {
      cell.report('refit', 'cell.together', { place: part, reason: '`refit` is for the lens' }, { atKey: true });
    }
    return {
      kind: 'care',
      part,
      ...(found && { found }),
      ...(did && { did }),
      ...(using !== undefined && { with: using }),
      ...(refit && { refit: refit as NonNullable<CareEntry['refit']> }),
    };
  },
};

function careSchema(fields: Fields) {
  const refit = mapping(
    {
      'flat side': word(['down', 'up'], 'Which way the flat side of the lens looks.').optional(),
      ring: text('How tight the ring nut is: snug, no more.', 'snug').optional(),
      witness: text('Whether the witness line is lined up.', 'lined up').optional(),
      hose: text('Whether the air hose is on again.', 'refitted').optional(),
    },
    'a mapping such as `{flat side: down, ring: snug}`',
    { description: 'How the lens was put back.', examples: [{ 'flat side': 'down', ring: 'snug' }] },
  );
  return mapping(
    {
      care: fields.name('An optic, or the tube, that was looked after.', 'M2', 'lens', 'tube'),
      found: word(
        FOUND,
        'How it was found. Nothing is fired while a part is cracked or loose, or the lens pitted or burnt.',
      ).optional(),
      did: word(
        DID,
        'What was done. An optic that was removed, tightened or replaced stands in another place.',
      ).optional(),
      with: text('What it was cleaned with.', 'lens tissue and isopropanol').optional(),
      refit: refit.optional(),
      ...common(fields),
    },
    'a care cell',
  );
}

export const power: CellKind<ReturnType<typeof powerSchema>> = {
  schema: powerSchema,
  meaning({ power: station, reading, with: places }, cell) {
    const machine = cell.machine();
    if (machine === undefined || elementNamed(machine, station, cell, 'power') === undefined) return undefined;
    if (places) checkPlaces(machine, places, cell);
    return { kind: 'power', station, readings: reading.map(({ value }) => value), ...(places && { with: places }) };
  },
};

function powerSchema(fields: Fields) {
  const one = fields.power('A reading of the power meter.', ['71 W'], 'not negative');
  return mapping(
    {
      power: fields.name('The station where the power was measured.', 'lens'),
      reading: oneOrMore(one, 'a power, or a list of them', {
        description: 'Power that arrives there, through the lens where it is the last of the path; a list for repeats.',
        examples: ['71 W', ['71 W', '70 W']],
      }),
      with: named(fields.place('A stop, or a leg.', 'far', '410 mm'), 'carriages and their places', {
        description: 'Where the carriages stood.',
        examples: [{ M2: 'far', M3: 'far' }],
      }).optional(),
      ...common(fields),
    },
    'a power cell',
  );
}
