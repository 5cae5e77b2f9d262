/** While a part is unfit nothing is shot, moved or released: the care cells that clear it, and the steps for them. */
import type { CareAction, Condition, Step } from '../model/index.ts';
import { TUBE } from '../machine/index.ts';
import type { Next } from './next-type.ts';
import { unfitNow, type State } from '../estimate/index.ts';
import { nameInCell } from '../words/index.ts';

/** The care that a part found in this state needs. */
export function cureOf(found: Condition): Extract<CareAction, 'tightened' | 'replaced'> {
  return found === 'loose' ? 'tightened' : 'replaced';
}

/** The care cells that clear unfit parts, one for each part. */
export function curesOf(
  state: Pick<State, 'unfit'>,
): readonly { readonly part: string; readonly found: Condition; readonly cell: string }[] {
  const unfit = unfitNow(state);
  return [...new Set(unfit.map(({ part }) => part))].map((part) => {
    const own = unfit.filter((record) => record.part === part).map(({ found }) => found);
    const found = own.find((one) => cureOf(one) === 'replaced') ?? own[0]!;
    return { part, found, cell: `care: ${nameInCell(part)}\ndid: ${cureOf(found)}\n` };
  });
}

/** While a part is unfit only care is advised. Undefined if every part is fit. */
export function stopForUnfit(state: State): Next | undefined {
  const steps = curesOf(state).map(({ part, found, cell }, k) => careStep(state, part, found, cell, k === 0));
  return steps.length === 0 ? undefined : { verdict: 'blocked', steps, expected: [] };
}

const WHY =
  'Do not shoot, turn or release anything while a part is unfit: a cracked optic breaks under the beam, a damaged lens burns, and a loose part moves every mark. If the part is sound after all, log `found: clean`, `did: inspected` and a `note` with the reason.';

function careStep({ system }: State, part: string, found: Condition, cell: string, isFirst: boolean): Step {
  const name = part === TUBE ? 'the tube' : part;
  const say =
    cureOf(found) === 'tightened'
      ? `Tighten what holds ${name}, no more than snug, or replace it: it was found loose.`
      : `Replace ${name}: it was found ${found}.`;
  const isLens = system?.machine.path.some((element) => element.name === part && element.kind === 'lens') === true;
  return {
    kind: 'care',
    part,
    did: cureOf(found),
    say,
    cell,
    ...(isFirst && { why: WHY }),
    ...(isLens && { handlesLens: true }),
  };
}
