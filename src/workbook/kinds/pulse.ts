/**
 * A test shot's power and time. The model uses the ratio to the full power; watts are converted with the source's
 * power.
 */
import { pathTo, type Pulse, type Source } from '../../model/index.ts';
import { mapping } from '../shapes.ts';
import type { Fields } from '../fields.ts';
import type { Cell } from './kind.ts';

export function pulseSchema(fields: Fields, description: string) {
  return mapping(
    {
      power: fields.pulsePower('Share of the full power, or W.', ['20 %', '8 W']).optional(),
      time: fields.time('How long.', ['200 ms'], 'positive').optional(),
    },
    'a mapping such as `{power: 20 %, time: 200 ms}`',
    { description, examples: [{ power: '20 %', time: '200 ms' }] },
  );
}

interface Written {
  readonly power?: { ratio: number } | { watts: number } | undefined;
  readonly time?: { value: number } | undefined;
}

export function pulse({ power, time }: Written, source: Source, cell: Cell): Pulse {
  const ratio = power === undefined ? undefined : 'ratio' in power ? power.ratio : ratioOf(power.watts, source, cell);
  return { ...(ratio !== undefined && { power: ratio }), ...(time && { time: time.value }) };
}

function ratioOf(watts: number, source: Source, cell: Cell): number | undefined {
  if (source.power === undefined) {
    cell.report(pathTo('pulse', 'power'), 'cell.together', {
      place: '`pulse`',
      reason: 'watts need `power` in the `source` of the machine',
    });
    return undefined;
  }
  if (watts > source.power.value) {
    cell.report(pathTo('pulse', 'power'), 'quantity.range', {
      text: `${watts} W`,
      least: '0 W',
      most: `${source.power.value} W`,
    });
  }
  return watts / source.power.value;
}
