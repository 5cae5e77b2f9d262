/** The condition of an optic, or of the tube, and what was done to it. */
import { pathTo, type CareEntry, type CareAction, type Condition } from '../../model/index.ts';
import { isPart } from '../names.ts';
import { mapping, text, word } from '../shapes.ts';
import type { Fields } from '../fields.ts';
import type { Common } from './common.ts';
import type { CellKind } from './kind.ts';

/** In the order in which they are offered: the worst last. */
const CONDITIONS = [
  'clean',
  'dusty',
  'hazy',
  'spotted',
  'scratched',
  'burnt',
  'pitted',
  'cracked',
  'loose',
] as const satisfies readonly Condition[];
const ACTIONS = [
  'inspected',
  'cleaned in place',
  'removed and cleaned',
  'tightened',
  'replaced',
] as const satisfies readonly CareAction[];

/** The condition in the text of a care cell with errors: a slip elsewhere in it must not hide a crack. */
function conditionIn(text: string): Condition | undefined {
  const word = /(?:^|[{,])[ \t]*found[ \t]*:[ \t]*["']?(\w+)/m.exec(text)?.[1];
  return CONDITIONS.find((one) => one === word);
}

export const care: CellKind<'care', ReturnType<typeof schema>> = {
  subject: 'part',
  skeleton: `care: \${1:M1}\nfound: \${2|${CONDITIONS.join(',')}|}\ndid: \${3|${ACTIONS.join(',')}|}\n$0`,
  about: ({ part }) => part,
  schema,
  readPartly(text) {
    const condition = conditionIn(text);
    return { ...(condition && { found: condition }) };
  },
  meaning({ care: part, found, did, with: using, refit }, cell) {
    const machine = cell.machine();
    if (machine === undefined || !isPart(machine, part, cell, pathTo('care'))) return undefined;
    if (found === undefined && did === undefined && refit === undefined) {
      cell.report(pathTo('care'), 'cell.missing', { key: 'found` or `did', place: 'a care cell' });
    }
    const element = machine.path.find(({ name }) => name === part);
    if (refit !== undefined && element?.kind !== 'lens') {
      cell.report(
        pathTo('refit'),
        'cell.together',
        { place: part, reason: '`refit` is for the lens' },
        { atKey: true },
      );
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

function schema(common: Common, fields: Fields) {
  const refit = mapping(
    {
      'flat side': word(['down', 'up'], 'The direction that the flat side of the lens faces.').optional(),
      ring: text('How tight the ring nut is: snug, no more.', 'snug').optional(),
      witness: text('Whether the witness line is lined up.', 'lined up').optional(),
      hose: text('Whether the air hose is refitted.', 'refitted').optional(),
    },
    'a mapping such as `{flat side: down, ring: snug}`',
    { description: 'How the lens was refitted.', examples: [{ 'flat side': 'down', ring: 'snug' }] },
  );
  return mapping(
    {
      care: fields.name('The optic that was cared for, or the tube.', 'M2', 'lens', 'tube'),
      found: word(
        CONDITIONS,
        'The condition as found. Do not fire while a part is cracked or loose, or the lens is pitted or burnt.',
      ).optional(),
      did: word(
        ACTIONS,
        'What was done. An optic that was removed, tightened or replaced is in a slightly different place.',
      ).optional(),
      with: text('What it was cleaned with.', 'lens tissue and isopropanol').optional(),
      refit: refit.optional(),
      ...common,
    },
    'a care cell',
  );
}
