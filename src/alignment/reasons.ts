/** Why a step and not another, in the trade's words. Distances mm, angles mrad; directions both the viewer's and the machine's. */
import type { Direction, Requirement, StationReport } from '../model/index.ts';
import { opposite } from '../optics/index.ts';
import type { Plan } from './plan.ts';
import type { Standing } from './report.ts';
import { isMark, points, type Mark, type Point } from './points.ts';
import { millimetres, placeInWords } from './words.ts';

/**
 * A mark's place for a person: `5.7 left (machine right) 2.1 up`; on vertical legs the machine's words alone. A part that
 * was not read is said to be so. mm, viewer's frame.
 */
export function markInWords(right: number | undefined, up: number | undefined, frame: StationReport['frame']): string {
  const parts = [
    side(right, 'right', 'left', frame.right, isVertical(frame.runs)),
    side(up, 'up', 'down', frame.up, isVertical(frame.runs)),
  ];
  return parts.filter((part) => part !== '').join(' ') || 'in the middle';
}

function isVertical(runs: Direction): boolean {
  return runs === 'up' || runs === 'down';
}

function side(amount: number | undefined, positive: Direction, negative: Direction, machine: Direction, machineOnly: boolean): string {
  if (amount === undefined) return `(${positive} or ${negative} not read)`;
  const rounded = Math.abs(amount).toFixed(1);
  if (Number(rounded) === 0) return '';
  return `${rounded} ${amount > 0 ? sideInWords(positive, machine, machineOnly) : sideInWords(negative, opposite(machine), machineOnly)}`;
}

/** `left (machine right)`: one side as the viewer has it, and as the machine has it. */
export function sideInWords(word: Direction, machine: Direction, machineOnly: boolean): string {
  return machineOnly || word === machine ? machine : `${word} (machine ${machine})`;
}

/** What is wrong at a station, from its fresh marks: what fails, and only that. */
export function problemInWords({ report, fresh }: Standing): string {
  const marks = points(fresh).filter(isMark);
  const missed = points(fresh).filter((point) => point.none);
  const failing = new Map(report.requirements.flatMap((requirement) => (fails(requirement) ? [[requirement.limit, requirement]] : [])));
  const worst = farthest(marks);
  const said: string[] = [];
  if (missed.length > 0) said.push(`The beam misses the tape on ${report.name}${missed.map((point) => where(point, report)).join(',')}.`);
  const centre = failing.get('centre');
  if (worst && (centre || failing.size === 0)) said.push(`On ${report.name} the mark is ${distance(worst).toFixed(1)} mm from the middle${where(worst, report)}: ${markInWords(worst.right, worst.up, report.frame)}${centre ? ` (limit ${millimetres(centre.max)} mm)` : ''}.`);
  const spread = failing.get('spread');
  if (spread && missed.length === 0) said.push(`The marks on ${report.name} lie ${spread.value!.toFixed(1)} mm apart (limit ${millimetres(spread.max)} mm): the beam is not parallel to the travel, which is an angle.`);
  const plumb = failing.get('plumb');
  if (plumb) said.push(`The beam leans ${(plumb.value! * 1000).toFixed(1)} mrad out of plumb (limit ${millimetres(plumb.max * 1000)} mrad).`);
  return said.join(' ');
}

function fails({ value, max }: Requirement): boolean {
  return value !== undefined && value > max;
}

function farthest(marks: readonly Mark[]): Mark | undefined {
  return marks.length === 0 ? undefined : marks.reduce((most, mark) => (distance(mark) > distance(most) ? mark : most));
}

function distance(mark: Mark): number {
  return Math.hypot(mark.right, mark.up);
}

function where({ first }: Point, { carriages }: StationReport): string {
  const place = placeInWords(carriages, first.at, first.with);
  return place === '' ? '' : ` (${place})`;
}

/** Why these adjusters. */
export function choiceInWords(plan: Plan, { report, station }: Standing): string {
  const parts = [...new Set(plan.adjusters.map((adjuster) => adjuster.part))];
  const shifts = plan.adjusters.filter((adjuster) => adjuster.kind === 'shift').map((adjuster) => adjuster.part);
  const chance = `If ${shifts.length > 0 ? 'everything goes where it is told' : 'the screws do what is said'}, the chance that ${report.name} is then within is ${percent(plan.probability)}.`;
  if (plan.adjusters.some((adjuster) => adjuster.kind === 'piston')) return `All three screws alike push the mirror straight: the beam shifts without turning. ${chance}`;
  if (shifts.length > 0) return `${station.index === 0 ? 'The mirror’s own screws never move the mark on it' : 'Angles alone cannot remove it'}, so ${[...new Set(shifts)].map((part) => (part === 'tube' ? 'the tube' : `the block of ${part}`)).join(' and ')} must move. ${chance}`;
  return `The screws of ${parts.join(' and ')} steer the beam that lands there. ${chance}`;
}

/** Rounded down: a chance is never told as more than it is. */
export function percent(probability: number): string {
  if (probability > 0.99) return 'over 99 %';
  return probability < 0.01 ? 'under 1 %' : `${Math.floor(probability * 100)} %`;
}
