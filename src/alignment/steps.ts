/** Steps that a hand does, each with its words and the cell that records it. */
import { sense, turnInCell, turnsInWords, lookup, type Displacement, type Step } from '../model/index.ts';
import type { Adjuster } from './adjusters.ts';
import { TUBE } from './move.ts';
import type { State } from './state.ts';
import type { ScrewPlace, System } from './system.ts';
import { listed, millimetres, nameInCell, shiftInWords } from './words.ts';

export function turnStep(of: System, part: string, screw: string, turns: number, why?: string): Step {
  const place = of.screws.find((candidate) => candidate.part === part && candidate.screw === screw);
  return {
    kind: 'turn', part, screw, turns,
    say: `Turn screw ${screw} of ${part}${placeOf(place)} ${sense(turns)} by ${turnsInWords(turns)} turn (${clock(turns)}${rim(place, turns)}).`,
    ...(why !== undefined && { why }),
    cell: `adjust: ${nameInCell(part)}\nturn: {${nameInCell(screw)}: ${turnInCell(turns)}}\n`,
  };
}

/** ` (upper left as you face the screw heads)`: the names are on paper, the hand is at the mount. */
function placeOf(place: ScrewPlace | undefined): string {
  if (!place) return '';
  const written = lookup(place.mount.screws, place.screw);
  if (!written?.right || !written.up) return '';
  const { right: { value: right }, up: { value: up } } = written;
  const small = Math.max(Math.abs(right), Math.abs(up)) / 4;
  const height = Math.abs(up) <= small ? '' : up > 0 ? 'upper' : 'lower';
  const side = Math.abs(right) <= small ? '' : right > 0 ? 'right' : 'left';
  const beamSide = place.mount.heads === 'beam side' ? ', on the beam side' : '';
  return ` (${[height, side].filter(Boolean).join(' ')} as you face the screw heads${beamSide})`;
}

function clock(turns: number): string {
  return turns < 0 ? 'anticlockwise' : 'clockwise';
}

/** The same as travel of the knob's rim, where its diameter is known. */
function rim(place: ScrewPlace | undefined, turns: number): string {
  const knob = place?.mount.knob;
  return knob === undefined ? '' : `; ${millimetres(Math.round(Math.abs(turns) * Math.PI * knob * 2) / 2)} mm at the rim`;
}

export function shiftStep(part: string, by: Displacement, why?: string): Step {
  const what = part === TUBE ? 'the tube' : `the block of ${part}, its mirror and aperture with it,`;
  return {
    kind: 'shift', part, by,
    say: `Shift ${what} ${shiftInWords(by)}${part === TUBE ? ', both ends alike' : ''}.`,
    ...(why !== undefined && { why }),
    cell: `adjust: ${nameInCell(part)}\nshift: ${shiftInWords(by)}\n`,
  };
}

export function lockStep(part: string, to: 'loose' | 'tight', why?: string): Step {
  const say = to === 'loose' ? `Loosen the lock nuts of ${part}.` : `Tighten the lock nuts of ${part} a little at a time, in turn, holding each screw still.`;
  return { kind: 'lock', part, to, say, ...(why !== undefined && { why }), cell: `adjust: ${nameInCell(part)}\nlock: ${to}\n` };
}

/**
 * A meniscus and a biconvex lens have no flat side to tell.
 *
 * @param unlimited stations of which nothing can be said
 */
export function releaseStep(of: System, unlimited: readonly string[]): Step {
  const lens = of.machine.path.find(({ kind }) => kind === 'lens');
  const flat = lens?.shape === undefined || lens.shape === 'plano-convex' ? ' (flat side toward the work)' : '';
  return {
    kind: 'release',
    say: `${lens ? `Refit ${lens.name}${flat}, witness line lined up, hose on. ` : ''}Put the covers back, prove it with a test cut at the corners and the middle, and sign the machine off.`,
    ...(unlimited.length > 0 && { why: `${listed(unlimited)} ${unlimited.length > 1 ? 'have' : 'has'} no limits, so nothing is said of ${unlimited.length > 1 ? 'them' : 'it'}: a good beam elsewhere may still miss there.` }),
    cell: 'release: in service\nby: \n',
    ...(lens && { handlesLens: true }),
  };
}

/** Nothing that the tool can put into a cell: what is in the way, and what can be done about it. */
export function repairStep(say: string, why?: string): Step {
  return { kind: 'repair', say, ...(why !== undefined && { why }) };
}

/** The steps of a move: lock nuts that are in use first, screws by mirror, then shifts; the reason with the first. */
export function stepsOf(state: State, of: System, adjusters: readonly Adjuster[], amounts: readonly number[], why: string): Step[] {
  const turned = new Map<string, { part: string; screw: string; turns: number }>();
  const shifted = new Map<string, Displacement>();
  adjusters.forEach((adjuster, k) => {
    const amount = amounts[k]!;
    for (const screw of screwsMoved(of, adjuster)) {
      const key = `${adjuster.part}/${screw}`;
      turned.set(key, { part: adjuster.part, screw, turns: (turned.get(key)?.turns ?? 0) + amount });
    }
    if (adjuster.axis) shifted.set(adjuster.part, sum(shifted.get(adjuster.part) ?? [0, 0, 0], adjuster.axis, amount));
  });
  const turns = [...turned.values()].filter((one) => one.turns !== 0);
  const parts = [...new Set([...turns.map((one) => one.part), ...shifted.keys()])];
  const steps = [
    ...parts.filter((part) => state.locked.has(part) && !state.loose.has(part)).map((part) => lockStep(part, 'loose')),
    ...turns.map(({ part, screw, turns: amount }) => turnStep(of, part, screw, amount)),
    ...[...shifted].map(([part, by]) => shiftStep(part, by)),
  ];
  return steps.map((step, k) => (k === 0 ? { ...step, why } : step));
}

function screwsMoved(of: System, { kind, part, screw }: Adjuster): readonly string[] {
  if (kind === 'turn') return [screw!];
  return kind === 'piston' ? of.screws.filter((candidate) => candidate.part === part).map((candidate) => candidate.screw) : [];
}

function sum(to: Displacement, axis: Displacement, amount: number): Displacement {
  return [to[0] + axis[0] * amount, to[1] + axis[1] * amount, to[2] + axis[2] * amount];
}
