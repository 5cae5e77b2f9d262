/** The geometry, or the file that has it. A later machine cell replaces the earlier one completely. */
import {
  keysOf,
  pathTo,
  PRIORS,
  type Asset,
  type CareInterval,
  type Machine,
  type PriorName,
  type Simulation,
} from '../../model/index.ts';
import { isPart } from '../names.ts';
import { mapping, named, text, word } from '../shapes.ts';
import type { Fields } from '../fields.ts';
import * as z from 'zod';
import { ASIDE, type Common } from './common.ts';
import type { Cell, CellKind } from './kind.ts';
import { mounts, mountsSchema } from './mounts.ts';
import { path, pathSchema } from './path.ts';
import { pulse, pulseSchema } from './pulse.ts';
import { source, sourceSchema } from './source.ts';

/** The version of the format that this reader supports. */
const FORMAT = '1';

export const machine: CellKind<'machine', ReturnType<typeof schema>> = {
  subject: 'machine',
  skeleton:
    'machine: ${1:name}\nsource: {fires: ${2|left,right,front,rear,up,down|}}\npath:\n  M1: {leg: ${3:90 mm}, aperture: ${4:20 mm}, sends: ${5|front,rear,left,right,up,down|}}\n$0',
  about: ({ machine: { name } }) => name,
  schema,
  isOptional: (at) => OPTIONAL.has(keysOf(at)[0]!),
  meaning(value, cell) {
    if (value.format !== undefined && value.format.version !== FORMAT) {
      cell.report(pathTo('format'), 'machine.format', { format: value.format.version, known: FORMAT });
    }
    const described = value.from === undefined ? ownMachine(value, cell) : borrowed(value, value.from, cell);
    return described && { kind: 'machine', machine: described };
  },
};

function schema(common: Common, fields: Fields) {
  return mapping(
    {
      machine: fields.name('The geometry of a machine, and its name.', 'router', 'bench2'),
      title: text('What it is and where it is.', '80 W bench engraver, north room').optional(),
      format: formatSchema().optional(),
      units: word(['mm', 'in'], 'The unit of bare lengths in every cell from here on (default mm).').optional(),
      from: text(
        'The workbook that describes the machine, relative to this one.',
        'machines/router.alignbook.yaml',
      ).optional(),
      source: sourceSchema(fields).optional(),
      path: pathSchema(fields).optional(),
      mounts: mountsSchema(fields).optional(),
      priors: priorsSchema(fields).optional(),
      care: named(
        fields.interval('How often.', 'every 3 months', 'every 40 h'),
        'parts and how often they are cared for',
        {
          description: 'How often each part is cared for.',
          examples: [{ lens: 'every 40 h', M1: 'every 3 months' }],
        },
      ).optional(),
      pulse: pulseSchema(fields, 'The maximum pulse of a test shot.').optional(),
      asset: assetSchema().optional(),
      practice: practiceSchema(fields).optional(),
      ...common,
    },
    'a machine cell',
  );
}

const OPTIONAL: ReadonlySet<string> = new Set(['title', 'care', 'priors', 'asset']);

/** Accepts any version, so that a later version is distinguished from a slip. */
function formatSchema() {
  return z
    .string({ error: () => 'the version of the format' })
    .transform((written) => ({ version: written.trim() }))
    .meta({
      description: 'The version of this format.',
      examples: [Number(FORMAT)],
      type: ['string', 'number'],
      enum: [FORMAT, Number(FORMAT)],
    });
}

function assetSchema() {
  return mapping(
    {
      number: text(
        'Its number in your inventory: records and lists of what is due name the machine by it.',
        'NL-017',
      ).optional(),
      serial: text('The maker’s serial number.', 'LC-2019-0417').optional(),
      owner: text('Whose it is.', 'Net Loft workshop').optional(),
      site: text('Where it is.', 'harbour quay, room 2').optional(),
    },
    'a mapping such as `{number: NL-017, site: harbour quay}`',
    {
      description: 'What identifies this machine.',
      examples: [{ number: 'NL-017', serial: 'LC-2019-0417', owner: 'Net Loft workshop', site: 'harbour quay' }],
    },
  );
}

function practiceSchema(fields: Fields) {
  return mapping(
    {
      seed: fields.number('What the machine is drawn from: the same seed gives the same machine.', [7], 'not negative'),
      level: fields.number('How hard it is, from 1 to 5 (default 1).', [1], 'positive').optional(),
    },
    'a mapping such as `{seed: 7, level: 1}`',
    {
      description: 'This machine is simulated, for practice: everything printed for it shows PRACTICE.',
      examples: [{ seed: 7, level: 1 }],
    },
  );
}

function priorsSchema(fields: Fields) {
  const prior = ([name, { dimension, reason }]: [string, (typeof PRIORS)[PriorName]]) => {
    const value = {
      length: () => fields.length(reason, ['2 mm'], 'positive'),
      angle: () => fields.angle(reason, ['5 mrad'], 'positive'),
      ratio: () => fields.number(reason, ['20 %'], 'positive'),
      turns: () => fields.turns(reason, ['0.02 turn']),
    }[dimension as 'length' | 'angle' | 'ratio' | 'turns']();
    return [name, value.optional()] as const;
  };
  return mapping(
    Object.fromEntries(Object.entries(PRIORS).map(prior)) as Record<PriorName, ReturnType<typeof prior>[1]>,
    'priors by name',
    {
      description: 'Standard deviations that replace the default priors.',
      examples: [{ mirrorTilt: '5 mrad' }],
    },
  );
}

type Written = z.output<ReturnType<typeof schema>>;

function borrowed(value: Written, from: string, cell: Cell): Machine | undefined {
  for (const key of Object.keys(value).filter((word) => !BESIDE_FROM.has(word) && !ASIDE.has(word))) {
    cell.report(
      pathTo(key),
      'cell.together',
      { place: `\`${key}\``, reason: 'the machine is described in the file of `from`' },
      { atKey: true },
    );
  }
  const machine = cell.machineFrom(value.machine, from);
  if (machine === undefined) return undefined;
  const { asset: _, ...shared } = machine;
  return {
    ...shared,
    ...(value.title !== undefined && { title: value.title }),
    // The other file was read in its own units; these apply to lengths in this file, and to results shown to the user.
    ...(value.units !== undefined && { units: value.units }),
    care: { ...machine.care, ...intervals(machine, value.care ?? {}, cell) },
    ...(value.asset && { asset: assetOf(value.asset) }),
  };
}

/** Keys that belong to this machine only. The asset of the other file is that of its own machine. */
const BESIDE_FROM: ReadonlySet<string> = new Set(['machine', 'from', 'title', 'asset', 'units', 'care', 'format']);

function assetOf(written: NonNullable<Written['asset']>): Asset {
  return Object.fromEntries(Object.entries(written).filter(([, text]) => text !== undefined));
}

const LEVELS: readonly number[] = [1, 2, 3, 4, 5];

function simulation({ seed, level }: NonNullable<Written['practice']>, cell: Cell): Simulation {
  if (!Number.isSafeInteger(seed.value))
    cell.report(pathTo('practice', 'seed'), 'quantity.range', {
      least: '0',
      most: 'a whole number of up to 15 digits',
    });
  if (level !== undefined && !LEVELS.includes(level.value))
    cell.report(pathTo('practice', 'level'), 'quantity.range', { least: '1', most: '5, a whole number' });
  return { seed: seed.value, level: level?.value ?? 1 };
}

function ownMachine(value: Written, cell: Cell): Machine | undefined {
  for (const key of ['source', 'path'] as const) {
    if (value[key] === undefined) cell.report(pathTo('machine'), 'cell.missing', { key, place: 'a machine cell' });
  }
  if (value.source === undefined || value.path === undefined) return undefined;
  const held = mounts(value.mounts ?? {}, cell);
  const tube = source(value.source, cell);
  const described: Machine = {
    name: value.machine,
    ...(value.title !== undefined && { title: value.title }),
    units: value.units ?? 'mm',
    source: tube,
    path: path(value.path, value.source.fires, held, cell),
    mounts: held,
    priors: priors(value.priors ?? {}),
    care: {},
    ...(value.pulse && { pulse: pulse(value.pulse, tube, cell) }),
    ...(value.asset && { asset: assetOf(value.asset) }),
    ...(value.practice && { practice: simulation(value.practice, cell) }),
  };
  return { ...described, care: intervals(described, value.care ?? {}, cell) };
}

function priors(
  written: Readonly<Partial<Record<PriorName, { readonly value: number } | undefined>>>,
): Record<string, number> {
  return Object.fromEntries(
    Object.entries(written).flatMap(([name, value]) => (value === undefined ? [] : [[name, value.value]])),
  );
}

function intervals(
  described: Machine,
  written: Readonly<Record<string, CareInterval>>,
  cell: Cell,
): Record<string, CareInterval> {
  return Object.fromEntries(
    Object.entries(written).filter(([part]) => isPart(described, part, cell, pathTo('care', part), { atKey: true })),
  );
}
