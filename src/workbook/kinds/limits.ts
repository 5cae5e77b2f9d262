/** The acceptance limits. A later limits cell replaces the earlier one completely. */
import { findings } from '../../../shared/findings.ts';
import { child, isBelow, lookup, nearest, pathTo, type StationLimits } from '../../model/index.ts';
import { elementNamed } from '../names.ts';
import { free, mapping, named, text } from '../shapes.ts';
import type { Fields } from '../fields.ts';
import type { Common } from './common.ts';
import type { Cell, CellKind } from './kind.ts';

/** mm: the smallest step read, and the standard uncertainty of placing the tape. Common practice. */
const READING = { resolution: 0.5, placing: 0.2 };
const CONFIDENCE = 0.9;

export const limits: CellKind<'limits', ReturnType<typeof schema>> = {
  subject: 'words',
  skeleton: 'limits: ${1:workshop standard}\nstations:\n  ${2:M1}: {centre: ${3:3 mm}}\n$0',
  about: ({ limits: { title } }) => title,
  schema,
  isOptional: (path) => isBelow(path, pathTo('rules')),
  meaning(value, cell) {
    const machine = cell.machine();
    if (machine === undefined) return undefined;
    const stations: Record<string, StationLimits> = {};
    for (const [name, { centre, spread, plumb }] of Object.entries(value.stations ?? {})) {
      const path = pathTo('stations', name);
      const element = elementNamed(machine, name, cell, path, { atKey: true });
      if (element !== undefined && element.kind !== 'lens' && plumb !== undefined) {
        cell.report(
          child(path, 'plumb'),
          'cell.together',
          { place: name, reason: '`plumb` is for the lens: the beam that leaves it upright' },
          { atKey: true },
        );
      }
      // A station without values has no limits, and is never within.
      if (centre === undefined && spread === undefined && plumb === undefined) continue;
      stations[name] = {
        ...(centre && { centre: centre.value }),
        ...(spread && { spread: spread.value }),
        ...(plumb && { plumb: plumb.value }),
      };
    }
    return {
      kind: 'limits',
      limits: {
        title: value.limits,
        stations,
        reading: {
          resolution: value.reading?.resolution?.value ?? READING.resolution,
          placing: value.reading?.placing?.value ?? READING.placing,
        },
        confidence: confidence(value.confidence?.value, cell),
        rules: turnedOff(value.rules ?? {}, cell),
      },
    };
  },
};

function schema(common: Common, fields: Fields) {
  const station = mapping(
    {
      centre: fields
        .length('Maximum distance of a mark from the centre of the aperture, at every stop.', ['2 mm'], 'positive')
        .optional(),
      spread: fields.length('Maximum distance between two marks of this station.', ['1.5 mm'], 'positive').optional(),
      plumb: fields
        .slope('For the lens: how far the beam may be out of plumb; a bare number is in mrad.', ['3 mrad'], 'positive')
        .optional(),
    },
    'limits such as `{centre: 2 mm, spread: 1.5 mm}`',
  );
  const reading = mapping(
    {
      resolution: fields
        .length('The step to which a mark is read (default 0.5 mm).', ['0.5 mm'], 'positive')
        .optional(),
      placing: fields
        .length('Standard uncertainty of placing the tape (default 0.2 mm).', ['0.2 mm'], 'not negative')
        .optional(),
    },
    'a mapping such as `{resolution: 0.5 mm, placing: 0.2 mm}`',
    { description: 'How well a mark is read.', examples: [{ resolution: '0.5 mm', placing: '0.2 mm' }] },
  );
  const rule = mapping(
    { off: text('Why the workshop turns it off.', 'the frame is shimmed every winter') },
    'a mapping such as `{off: reason}`',
  );
  return mapping(
    {
      limits: text('Acceptance limits: whose they are.', 'workshop standard'),
      stations: named(station, 'stations and their limits', {
        description: 'The limits of each station.',
        examples: [{ M1: { centre: '3 mm' }, M2: { centre: '2 mm', spread: '1.5 mm' } }],
      }).optional(),
      reading: reading.optional(),
      confidence: fields.ratio('Minimum probability that the limits are met (default 90 %).', ['90 %']).optional(),
      rules: free(rule, 'finding codes and why they are off', {
        description: 'Findings that this workshop turns off, each with its reason.',
        examples: [{ 'log.height': { off: 'the frame is shimmed every winter' } }],
      }).optional(),
      ...common,
    },
    'a limits cell',
  );
}

function confidence(value: number | undefined, cell: Cell): number {
  if (value === undefined) return CONFIDENCE;
  if (value < 0.5 || value > 0.9999)
    cell.report(pathTo('confidence'), 'quantity.range', {
      text: `${+(value * 100).toPrecision(6)} %`,
      least: '50 %',
      most: '99.99 %',
    });
  return value;
}

/** Rules that may be turned off, and have a reason. */
function turnedOff(written: Readonly<Record<string, { off: string }>>, cell: Cell): Record<string, { off: string }> {
  return Object.fromEntries(
    Object.entries(written).filter(([code, { off }]) => {
      const known = lookup(findings as Readonly<Record<string, { severity: string }>>, code);
      if (known === undefined) {
        cell.report(
          pathTo('rules', code),
          'cell.key',
          { key: code, place: '`rules`' },
          { atKey: true, suggestion: nearest(code, Object.keys(findings)) },
        );
      } else if (known.severity === 'error') {
        cell.report(
          pathTo('rules', code),
          'cell.together',
          { place: `\`${code}\``, reason: 'an error means that something was not read, and cannot be turned off' },
          { atKey: true },
        );
      } else if (!/[\p{L}\p{N}]/u.test(off)) {
        cell.report(
          pathTo('rules', code),
          'cell.together',
          { place: `\`${code}\``, reason: 'it stays on until `off` gives the reason' },
          { atKey: true },
        );
      } else return true;
      return false;
    }),
  );
}
