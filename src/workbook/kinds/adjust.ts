/** What was moved: screws turned, a block or the tube shifted, lock nuts. Signs: a turn in is positive. */
import { lookup, type AdjustEntry, type Machine } from '../../model/index.ts';
import { signedTurns, type Turn } from '../quantities/index.ts';
import { isPart, TUBE, unknown } from '../names.ts';
import { mapping, named, word } from '../shapes.ts';
import type { Fields } from '../fields.ts';
import { common, type Cell, type CellKind } from './kind.ts';

export const adjust: CellKind<ReturnType<typeof schema>> = {
  schema,
  meaning({ adjust: part, turn, shift, end, lock }, cell) {
    const machine = cell.machine();
    if (machine === undefined || !isPart(machine, part, cell, 'adjust')) return undefined;
    if (turn === undefined && shift === undefined && lock === undefined) {
      cell.report('adjust', 'cell.missing', { key: 'turn`, `shift` or `lock', place: 'an adjust cell' });
    }
    if (end !== undefined) checkEnd(machine, part, shift !== undefined, cell);
    return {
      kind: 'adjust',
      part,
      turns: turn === undefined ? {} : turns(machine, part, turn, cell),
      ...(shift && { shift: { by: shift.vector, ...(end && { end }) } }),
      ...(lock && { lock }),
    };
  },
};

function schema(fields: Fields) {
  const one = fields.turn('Direction first, then how far. In is clockwise: the tip advances.', 'in 1/4', 'out 2 flats', 'in 1/8 in at rim', 'out 90 deg');
  return mapping(
    {
      adjust: fields.name('The part that was moved: an element of the path, or the tube.', 'M1', 'tube'),
      turn: named(one, 'screws and their turns', { description: 'By screw, how far it was turned; all in one go.', examples: [{ B: 'in 1/4' }] }).optional(),
      shift: fields.shift('How far the whole tube or block was moved, in the machine’s directions.', '1.5 mm up', '2 mm left 1 mm up').optional(),
      end: word(['exit', 'tail'], 'The end of the tube that was shifted, where only one was.').optional(),
      lock: word(['loose', 'tight'], 'How the lock nuts were left. Locks never mentioned count as tight.').optional(),
      ...common(fields),
    },
    'an adjust cell',
  );
}

function checkEnd(machine: Machine, part: string, shifted: boolean, cell: Cell): void {
  const reason =
    part !== TUBE ? 'only the tube has an exit and a tail'
    : !shifted ? '`end` says which end was shifted, and there is no `shift`'
    : machine.source.holders === undefined ? 'where its ends are held is not known: the machine’s `source` has no `holders`'
    : undefined;
  if (reason !== undefined) cell.report('end', 'cell.together', { place: part, reason }, { atKey: true });
}

function turns(machine: Machine, part: string, written: Readonly<Record<string, Turn>>, cell: Cell): AdjustEntry['turns'] {
  const mount = machine.path.find((element) => element.name === part)?.mount;
  const description = mount === undefined ? undefined : lookup(machine.mounts, mount);
  const screws = Object.keys(description?.screws ?? {});
  const signed: Record<string, number> = {};
  for (const [screw, turn] of Object.entries(written)) {
    if (!screws.includes(screw)) {
      unknown(cell, `turn/${screw}`, `screw on ${part}`, screw, machine, screws, { atKey: true });
      continue;
    }
    const amount = signedTurns(turn, description?.knob);
    if (amount === undefined) cell.report(`turn/${screw}`, 'turn.knob', { mount: mount ?? part });
    else signed[screw] = amount;
  }
  return signed;
}
