/** A test shot's power and length. The model wants a share of the full power; a pulse told in watts is one of the source's. */
import type { Pulse, Source } from '../../model/index.ts';
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
  readonly power?: { share: number } | { watts: number } | undefined;
  readonly time?: { value: number } | undefined;
}

export function pulse({ power, time }: Written, source: Source, cell: Cell): Pulse {
  const share = power === undefined ? undefined : 'share' in power ? power.share : shareOf(power.watts, source, cell);
  return { ...(share !== undefined && { power: share }), ...(time && { time: time.value }) };
}

function shareOf(watts: number, source: Source, cell: Cell): number | undefined {
  if (source.power === undefined) {
    cell.report('pulse/power', 'cell.together', {
      place: '`pulse`',
      reason: 'watts need `power` in the `source` of the machine',
    });
    return undefined;
  }
  if (watts > source.power.value) {
    cell.report('pulse/power', 'quantity.range', { text: `${watts} W`, least: '0 W', most: `${source.power.value} W` });
  }
  return watts / source.power.value;
}
