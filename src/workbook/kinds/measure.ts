/**
 * Other measurements of a visit: bed level, coolant, pointer dot. They do not concern the beam. All values and limits
 * of one cell have one dimension.
 */
import { child, pathInWords, pathTo, type MeasuredValue, type MeasureLimit, type Path } from '../../model/index.ts';
import type { Measurement } from '../quantities/index.ts';
import { free, list, mapping, oneOrMore, text } from '../shapes.ts';
import type { Fields } from '../fields.ts';
import type { Common } from './common.ts';
import type { Cell, CellKind } from './kind.ts';

export const measure: CellKind<'measure', ReturnType<typeof schema>> = {
  subject: 'words',
  skeleton: 'measure: ${1:bed level}\nvalues: {${2:front}: ${3:0.2 mm}}\nlimit: ${4:0.5 mm}\n$0',
  about: ({ name }) => name,
  schema,
  meaning({ measure: name, value, values = {}, limit, between, with: instrument }, cell) {
    const places = Object.entries(values);
    const written: Placed[] = [
      ...(value === undefined ? [] : [{ path: pathTo('value'), readings: value }]),
      ...places.map(([place, readings]) => ({ place, path: pathTo('values', place), readings })),
    ];
    if (written.length === 0)
      cell.report(pathTo('measure'), 'cell.missing', { key: 'value` or `values', place: 'a measure cell' });
    if (value !== undefined && places.length > 0)
      reportConflict(cell, pathTo('value'), 'one `value`, or `values` by place');
    if (limit !== undefined && between !== undefined)
      reportConflict(cell, pathTo('limit'), 'one `limit`, or the two of `between`');
    if (limit !== undefined && limit.value < 0) cell.report(pathTo('limit'), 'quantity.sign', { must: 'not negative' });
    if (between !== undefined && !(between[0].value < between[1].value))
      reportConflict(cell, pathTo('between'), 'the smaller of the two comes first');
    const dimension = written[0]?.readings[0]?.kind;
    if (dimension === undefined) return undefined;
    const limits = [
      ...(limit ? [[pathTo('limit'), limit] as const] : []),
      ...(between ?? []).map((one, k) => [pathTo('between', k), one] as const),
    ];
    const all = [
      ...written.flatMap(({ path, readings }) => readings.map((one, k) => [child(path, k), one] as const)),
      ...limits,
    ];
    for (const [path, { kind }] of all)
      if (kind !== dimension) cell.report(path, 'quantity.dimension', { found: kind, wanted: dimension });
    return {
      kind: 'measure',
      name: name.trim(),
      dimension,
      values: written.map(meanOf),
      ...(limit && { limit: { least: -limit.value, most: limit.value } satisfies MeasureLimit }),
      ...(between && { limit: { least: between[0].value, most: between[1].value } }),
      ...(instrument !== undefined && { with: instrument }),
    };
  },
};

function schema(common: Common, fields: Fields) {
  const one = fields.quantity('A value with its unit.', '0.2 mm', '19.5 degC', '2.1 bar', '4.5 l/min', '18 mA');
  const repeated = oneOrMore(one, 'a value with its unit, or a list of them', {
    description: 'What was measured, with its unit; a list for repeats, whose mean counts.',
    examples: ['19.5 degC', ['2.1 bar', '2.2 bar']],
  });
  return mapping(
    {
      measure: text(
        'Anything else that is measured at a visit, and its name: bed level, coolant, squareness, pointer dot.',
        'bed level',
      ),
      value: repeated.optional(),
      values: free(repeated, 'places and their values', {
        description: 'By place, what was measured.',
        examples: [{ 'front left': '0.2 mm', 'rear right': '-0.3 mm' }],
      }).optional(),
      limit: fields
        .quantity(
          'The largest value that is allowed, whatever its sign; it holds for later cells of this name.',
          '0.5 mm',
        )
        .optional(),
      between: list(one, 'a list of two values', {
        description: 'The least and the most that is allowed; they hold for later cells of this name.',
        examples: [['18 degC', '22 degC']],
      })
        .length(2, { error: () => 'a list of two values' })
        .transform(([least, most]) => [least, most] as [Measurement, Measurement])
        .optional(),
      with: text('The instrument.', 'dial gauge on the head').optional(),
      ...common,
    },
    'a measure cell',
  );
}

interface Placed {
  readonly place?: string;
  readonly path: Path;
  readonly readings: readonly Measurement[];
}

function reportConflict(cell: Cell, path: Path, reason: string): void {
  cell.report(path, 'cell.together', { place: `\`${pathInWords(path)}\``, reason }, { atKey: true });
}

/** The uncertainty of a mean is that of one reading, because the stated uncertainty is common to all. */
function meanOf({ place, path, readings }: Placed): MeasuredValue {
  const us = readings.flatMap(({ u }) => u ?? []);
  return {
    ...(place !== undefined && { place }),
    value: readings.reduce((sum, { value }) => sum + value / readings.length, 0),
    ...(us.length > 0 && { u: Math.max(...us) }),
    repeats: readings.length,
    path,
  };
}
