/** Adjustments: screws turned, a block or the tube shifted, lock nuts, screws at their end. Positive turns are in. */
import { mountOf, pathTo, type AdjustEntry, type Machine } from '../../model/index.ts';
import { signedTurns, type Turn } from '../quantities/index.ts';
import { isPart, TUBE, unknown } from '../names.ts';
import { mapping, named, word } from '../shapes.ts';
import type { Fields } from '../fields.ts';
import type { Common } from './common.ts';
import type { Cell, CellKind } from './kind.ts';

export const adjust: CellKind<'adjust', ReturnType<typeof schema>> = {
  subject: 'part',
  skeleton: 'adjust: ${1:M1}\nturn: {${2:A}: $0}\n',
  about: ({ part }) => part,
  schema,
  meaning({ adjust: part, turn, shift, end, lock, 'no further': noFurther }, cell) {
    const machine = cell.machine();
    if (machine === undefined || !isPart(machine, part, cell, pathTo('adjust'))) return undefined;
    if (turn === undefined && shift === undefined && lock === undefined && noFurther === undefined) {
      cell.report(pathTo('adjust'), 'cell.missing', {
        key: 'turn`, `shift`, `lock` or `no further',
        place: 'an adjust cell',
      });
    }
    if (end !== undefined) checkEnd(machine, part, shift !== undefined, cell);
    return {
      kind: 'adjust',
      part,
      turns: turn === undefined ? {} : turns(machine, part, turn, cell),
      ...(shift && { shift: { by: shift.vector, ...(end && { end }) } }),
      ...(lock && nuts(lock)),
      ...(noFurther && { noFurther: stopped(machine, part, noFurther, cell) }),
    };
  },
};

function schema(common: Common, fields: Fields) {
  const one = fields.turn(
    'Direction first, then the amount. `in` is clockwise: the tip advances. With a left-hand thread it is anticlockwise.',
    'in 1/4',
    'out 2 flats',
    'in 1/8 in at rim',
    'out 90 deg',
  );
  return mapping(
    {
      adjust: fields.name('The part that was moved: an element of the path, or the tube.', 'M1', 'tube'),
      turn: named(one, 'screws and their turns', {
        description: 'The turn of each screw, all made in one go.',
        examples: [{ B: 'in 1/4' }],
      }).optional(),
      shift: fields
        .shift(
          'How far the whole tube or block was moved, in directions of the machine.',
          '1.5 mm up',
          '2 mm left 1 mm up',
        )
        .optional(),
      end: word(['exit', 'tail'], 'The end of the tube that was shifted, where only one was.').optional(),
      'no further': named(
        word(['in', 'out'], 'The direction in which the screw is at its end.'),
        'screws and directions',
        {
          description: 'For each screw at its end, the direction in which it goes no further until it is turned back.',
          examples: [{ B: 'in' }],
        },
      ).optional(),
      lock: word(
        ['loose', 'tight', 'found loose', 'found tight'],
        'The lock nuts. `loose` (before the turns of this cell) and `tight` (after them) are actions and move the mirror a little. `found loose` and `found tight` state how they were; nothing moved. Nuts that were never logged are unknown.',
      ).optional(),
      ...common,
    },
    'an adjust cell',
  );
}

function checkEnd(machine: Machine, part: string, shifted: boolean, cell: Cell): void {
  const reason =
    part !== TUBE
      ? 'only the tube has an exit and a tail'
      : !shifted
        ? '`end` names the end that was shifted, but there is no `shift`'
        : machine.source.holders === undefined
          ? '`end` needs `holders` in the `source` of the machine'
          : undefined;
  if (reason !== undefined) cell.report(pathTo('end'), 'cell.together', { place: part, reason }, { atKey: true });
}

type Lock = 'loose' | 'tight' | 'found loose' | 'found tight';

function nuts(lock: Lock): Pick<AdjustEntry, 'lock' | 'foundLock'> {
  switch (lock) {
    case 'found loose':
      return { foundLock: 'loose' };
    case 'found tight':
      return { foundLock: 'tight' };
    default:
      return { lock };
  }
}

/** Screws that the part does not have are reported and left out. */
function stopped(
  machine: Machine,
  part: string,
  written: Readonly<Record<string, 'in' | 'out'>>,
  cell: Cell,
): NonNullable<AdjustEntry['noFurther']> {
  const screws = Object.keys(mountOf(machine, part)?.screws ?? {});
  return Object.fromEntries(
    Object.entries(written).filter(([screw]) => {
      const known = screws.includes(screw);
      if (!known)
        unknown(cell, pathTo('no further', screw), `screw on ${part}`, screw, machine, screws, { atKey: true });
      return known;
    }),
  );
}

function turns(
  machine: Machine,
  part: string,
  written: Readonly<Record<string, Turn>>,
  cell: Cell,
): AdjustEntry['turns'] {
  const mount = machine.path.find((element) => element.name === part)?.mount;
  const description = mountOf(machine, part);
  const screws = Object.keys(description?.screws ?? {});
  const signed: Record<string, number> = {};
  for (const [screw, turn] of Object.entries(written)) {
    if (!screws.includes(screw)) {
      unknown(cell, pathTo('turn', screw), `screw on ${part}`, screw, machine, screws, { atKey: true });
      continue;
    }
    const amount = signedTurns(turn, description?.knob);
    if (amount === undefined) cell.report(pathTo('turn', screw), 'turn.knob', { mount: mount ?? part });
    else signed[screw] = amount;
  }
  return signed;
}
