/** The tube: its beam, its direction and its holders. */
import { CO2_WAVELENGTH, DIRECTIONS, pathTo, type Source } from '../../model/index.ts';
import { mapping, word } from '../shapes.ts';
import type { Fields } from '../fields.ts';
import type * as z from 'zod';
import type { Cell } from './kind.ts';

/** mm: bounds for light that is steered by mirrors and burns tape; 10.6 mm is a slip for 10.6 um. */
const SHORTEST = 1e-4;
const LONGEST = 1;

export function sourceSchema(fields: Fields) {
  const beam = mapping(
    {
      diameter: fields.length('1/e² diameter at the exit.', ['6 mm'], 'positive'),
      divergence: fields.angle('Full angle.', ['3 mrad'], 'not negative').optional(),
      M2: fields.number('Beam propagation ratio M².', [1.2], 'positive').optional(),
    },
    'a mapping such as `{diameter: 6 mm, divergence: 3 mrad, M2: 1.2}`',
    { description: 'The beam as it leaves the tube.', examples: [{ diameter: '6 mm', divergence: '3 mrad' }] },
  );
  const holders = mapping(
    {
      exit: fields.length('The holder near the exit.', ['120 mm'], 'not negative'),
      tail: fields.length('The holder near the tail.', ['980 mm'], 'positive'),
    },
    'a mapping such as `{exit: 120 mm, tail: 980 mm}`',
    {
      description: 'Where the tube is held, back from its exit: then one end can be moved alone.',
      examples: [{ exit: '120 mm', tail: '980 mm' }],
    },
  );
  return mapping(
    {
      wavelength: fields.length('Wavelength (default 10.6 um).', ['10.6 um'], 'positive').optional(),
      power: fields.power('Full power.', ['80 W'], 'positive').optional(),
      beam: beam.optional(),
      fires: word(DIRECTIONS, 'Where the tube sends the beam, as you stand in front of the machine.'),
      holders: holders.optional(),
    },
    'a mapping such as `{power: 80 W, fires: left}`',
    { description: 'The tube.', examples: [{ power: '80 W', fires: 'left' }] },
  );
}

export function source(written: z.output<ReturnType<typeof sourceSchema>>, cell: Cell): Source {
  const { wavelength, power, beam, fires, holders } = written;
  if (beam?.M2 !== undefined && beam.M2.value < 1) {
    cell.report(pathTo('source', 'beam', 'M2'), 'quantity.range', {
      text: String(beam.M2.value),
      least: '1',
      most: 'the value of the maker',
    });
  }
  if (wavelength !== undefined && (wavelength.value < SHORTEST || wavelength.value > LONGEST)) {
    cell.report(pathTo('source', 'wavelength'), 'quantity.range', {
      text: `${+(wavelength.value * 1000).toPrecision(6)} um`,
      least: '0.1 um',
      most: '1000 um',
    });
  }
  if (holders !== undefined && holders.tail.value <= holders.exit.value) {
    cell.report(pathTo('source', 'holders'), 'cell.together', {
      place: '`holders`',
      reason: '`tail` must be larger than `exit`',
    });
  }
  return {
    fires,
    wavelength: wavelength?.value ?? CO2_WAVELENGTH,
    ...(power && { power }),
    ...(beam && {
      beam: {
        diameter: beam.diameter,
        ...(beam.divergence && { divergence: beam.divergence }),
        ...(beam.M2 && { M2: beam.M2 }),
      },
    }),
    ...(holders && { holders: { exit: holders.exit.value, tail: holders.tail.value } }),
  };
}
