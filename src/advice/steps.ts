/** Steps for a person, each with its text and the cell that logs it. */
import {
  amountInWords,
  clockSense,
  cornerOf,
  lengthsIn,
  sense,
  turnInCell,
  type Displacement,
  type Step,
  type Units,
} from '../model/index.ts';
import { opposite } from '../optics/index.ts';
import type { Adjuster } from '../plan/index.ts';
import { TUBE, needsLoosening, unknownNuts, type ScrewPlace, type Station, type System } from '../machine/index.ts';
import type { State } from '../estimate/index.ts';
import { listed, nameInCell, shiftInWords } from '../words/index.ts';

function turnStep(system: System, part: string, screw: string, turns: number, why?: string): Step {
  const place = system.screws.find((candidate) => candidate.part === part && candidate.screw === screw);
  return {
    kind: 'turn',
    part,
    screw,
    turns,
    say: `Turn screw ${screw} of ${part}${placeOf(place)} ${sense(turns)} by ${amountInWords(turns)} (${clockSense(turns, place?.mount.hand)}${rim(place, turns, system.machine.units)}).`,
    ...(why !== undefined && { why }),
    cell: `adjust: ${nameInCell(part)}\nturn: {${nameInCell(screw)}: ${turnInCell(turns)}}\n`,
  };
}

/** ` (upper left as you face the screw heads)`: the names are in the workbook, the person is at the mount. */
function placeOf(place: ScrewPlace | undefined): string {
  if (!place) return '';
  const corner = cornerOf(place.mount, place.screw);
  if (corner === undefined) return '';
  const beamSide = place.mount.heads === 'beam side' ? ', on the beam side' : '';
  return ` (${corner} as you face the screw heads${beamSide})`;
}

/** The same as travel of the knob's rim, if its diameter is known. */
function rim(place: ScrewPlace | undefined, turns: number, units: Units): string {
  const knob = place?.mount.knob;
  return knob === undefined ? '' : `; ${lengthsIn(units).rim(Math.abs(turns) * Math.PI * knob)} at the rim`;
}

function shiftStep(system: System, { part, by, end, why }: Shifted & { readonly why?: string }): Step {
  const words = shiftInWords(by, system.machine.units);
  return {
    kind: 'shift',
    part,
    by,
    ...(end && { end }),
    say: `Shift ${whatIsShifted(part, end)} ${words}${part !== TUBE ? '' : end ? `; its ${end === 'tail' ? 'exit' : 'tail'} end stays where it is` : ', both ends alike'}.`,
    ...(why !== undefined && { why }),
    cell: `adjust: ${nameInCell(part)}\nshift: ${words}\n${end ? `end: ${end}\n` : ''}`,
  };
}

interface Shifted {
  readonly part: string;
  /** mm, machine axes. */
  readonly by: Displacement;
  /** The end of the tube, if only one end is shifted. */
  readonly end?: 'exit' | 'tail';
}

function whatIsShifted(part: string, end: Shifted['end']): string {
  if (part !== TUBE) return `the block of ${part}, its mirror and aperture with it,`;
  return end ? `the ${end} end of the tube` : 'the tube';
}

export function lockStep(part: string, to: 'loose' | 'tight', why?: string): Step {
  const say =
    to === 'loose'
      ? `Loosen the lock nuts of ${part}.`
      : `Tighten the lock nuts of ${part} a little at a time, in turn, holding each screw still.`;
  return {
    kind: 'lock',
    part,
    to,
    say,
    ...(why !== undefined && { why }),
    cell: `adjust: ${nameInCell(part)}\nlock: ${to}\n`,
  };
}

/**
 * Before the release nuts in an unknown state are tried by hand. A list of checks that names nuts, or a log of how they
 * were found, removes this step.
 */
export function nutCheck(state: State): Step[] {
  const parts = unknownNuts(state);
  if (parts.length === 0) return [];
  return [
    {
      kind: 'check',
      items: [`lock nuts of ${listed(parts)} tight`],
      say: `Check the lock nuts of ${listed(parts)} with the wrench, without turning them: the log does not show that they are tight. Log the result: \`lock: found tight\`, or an item of a \`checks\` cell.`,
    },
  ];
}

/**
 * @param unlimited stations without limits
 * @param withoutPlumb lenses without a plumb limit
 */
export function releaseStep(system: System, unlimited: readonly string[], withoutPlumb: readonly string[]): Step {
  const lens = system.stations.find(({ element }) => element.kind === 'lens');
  const remarks = [
    ...(unlimited.length > 0
      ? [
          `${listed(unlimited)} ${unlimited.length > 1 ? 'have' : 'has'} no limits and ${unlimited.length > 1 ? 'are' : 'is'} not judged: a beam that is good elsewhere may still miss there.`,
        ]
      : []),
    ...withoutPlumb.map(
      (name) =>
        `Plumb not measured: ${name} has no plumb limit, so the beam may be out of plumb there. Add \`plumb\` to its limits and shoot two heights on the bed.`,
    ),
  ];
  return {
    kind: 'release',
    say: `${lens ? `Refit ${lens.name}${wayRound(lens)}, witness line lined up, hose on. ` : ''}Put the covers back, make a test cut at the corners and the middle, and sign off the machine.`,
    ...(remarks.length > 0 && { why: remarks.join(' ') }),
    cell: 'release: in service\nby: \n',
    ...(lens && { handlesLens: true }),
  };
}

/** The curved side of a lens meets the beam; equal faces may go either way. */
function wayRound({ element: { shape = 'plano-convex' }, runs }: Station): string {
  if (shape === 'biconvex') return '';
  return shape === 'meniscus' ? ` (bulge toward the beam, ${opposite(runs)})` : ' (flat side toward the work)';
}

/** A step without a cell: the obstacle, and how to remove it. */
export function repairStep(say: string, why?: string): Step {
  return { kind: 'repair', say, ...(why !== undefined && { why }) };
}

/**
 * The steps of a move: lock nuts that have to be loosened first, screws by mirror, then shifts; the first step has the
 * reason.
 */
export function stepsOf(
  state: State,
  system: System,
  adjusters: readonly Adjuster[],
  amounts: readonly number[],
  why: string,
): Step[] {
  const turned = new Map<string, { part: string; screw: string; turns: number }>();
  const shifted = new Map<string, Shifted>();
  adjusters.forEach((adjuster, k) => {
    const amount = amounts[k]!;
    for (const screw of screwsMoved(system, adjuster)) {
      const key = `${adjuster.part}/${screw}`;
      turned.set(key, { part: adjuster.part, screw, turns: (turned.get(key)?.turns ?? 0) + amount });
    }
    if (!adjuster.axis) return;
    const { part, end, axis } = adjuster;
    const key = `${part} ${end ?? ''}`;
    shifted.set(key, { part, ...(end && { end }), by: sum(shifted.get(key)?.by ?? [0, 0, 0], axis, amount) });
  });
  const turns = [...turned.values()].filter((one) => one.turns !== 0);
  const parts = [...new Set(turns.map((one) => one.part))];
  const steps = [
    ...parts.filter((part) => needsLoosening(state, part)).map((part) => lockStep(part, 'loose')),
    ...turns.map(({ part, screw, turns: amount }) => turnStep(system, part, screw, amount)),
    ...[...shifted.values()].map((shift) => shiftStep(system, shift)),
  ];
  return steps.map((step, k) => (k === 0 ? { ...step, why } : step));
}

function screwsMoved(system: System, { kind, part, screw }: Adjuster): readonly string[] {
  if (kind === 'turn') return [screw!];
  return kind === 'piston'
    ? system.screws.filter((candidate) => candidate.part === part).map((candidate) => candidate.screw)
    : [];
}

function sum(to: Displacement, axis: Displacement, amount: number): Displacement {
  return [to[0] + axis[0] * amount, to[1] + axis[1] * amount, to[2] + axis[2] * amount];
}
