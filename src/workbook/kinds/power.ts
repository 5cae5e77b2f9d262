/** The power at a station. */
import { pathTo } from '../../model/index.ts';
import { elementNamed } from '../names.ts';
import { mapping, named, oneOrMore } from '../shapes.ts';
import type { Fields } from '../fields.ts';
import { checkPlaces } from './carriages.ts';
import type { Common } from './common.ts';
import type { CellKind } from './kind.ts';

export const power: CellKind<'power', ReturnType<typeof schema>> = {
  subject: 'station',
  skeleton: 'power: ${1:lens}\nreading: ${2:70 W}\n$0',
  about: ({ station }) => station,
  schema,
  meaning({ power: station, reading, with: places }, cell) {
    const machine = cell.machine();
    if (machine === undefined || elementNamed(machine, station, cell, pathTo('power')) === undefined) return undefined;
    if (places) checkPlaces(machine, places, cell);
    return { kind: 'power', station, readings: reading.map(({ value }) => value), ...(places && { with: places }) };
  },
};

function schema(common: Common, fields: Fields) {
  const one = fields.power('A reading of the power meter.', ['71 W'], 'not negative');
  return mapping(
    {
      power: fields.name('The station where the power was measured.', 'lens'),
      reading: oneOrMore(one, 'a power, or a list of them', {
        description: 'Power that arrives there, through the lens where it is the last of the path; a list for repeats.',
        examples: ['71 W', ['71 W', '70 W']],
      }),
      with: named(fields.place('A stop, or a leg.', 'far', '410 mm'), 'carriages and their places', {
        description: 'Where the carriages were.',
        examples: [{ M2: 'far', M3: 'far' }],
      }).optional(),
      ...common,
    },
    'a power cell',
  );
}
