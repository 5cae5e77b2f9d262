/**
 * The reasons of a step, in the trade's words. Lengths in the machine's units, angles mrad; directions in both the
 * viewer's and the machine's frame.
 */
import { hundredths, lengthsIn, type Requirement, type StationReport, type Units } from '../model/index.ts';
import type { SimplerMove, Plan } from '../plan/index.ts';
import type { StationVerdict } from '../verdict/index.ts';
import { isMark, points, type Mark, type Point } from '../machine/index.ts';
import { bracketed, listed, placeInWords, markInWords, percent } from '../words/index.ts';

/** The failing limits of a station, from its fresh marks. */
export function problemInWords(
  { report, fresh }: Pick<StationVerdict, 'report' | 'fresh'>,
  cause = ': the beam is not parallel to the travel (an angle error)',
): string {
  const marks = points(fresh).filter(isMark);
  const missed = points(fresh).filter((point) => point.none);
  const failing = new Map(
    report.requirements.flatMap((requirement) => (fails(requirement) ? [[requirement.limit, requirement]] : [])),
  );
  const worst = farthest(marks);
  const { read, given } = lengthsIn(report.frame.units);
  const problems: string[] = [];
  if (missed.length > 0)
    problems.push(
      `The beam misses the tape on ${report.name}${missed.map((point) => where(point, report)).join(',')}.`,
    );
  const centre = failing.get('centre');
  if (worst && (centre || failing.size === 0))
    problems.push(
      `On ${report.name} the mark is ${read(distance(worst))} from the centre${where(worst, report)}: ${markInWords(worst.right, worst.up, report.frame)}${centre ? ` (limit ${given(centre.max)})` : ''}.`,
    );
  const spread = failing.get('spread');
  if (spread && missed.length === 0)
    problems.push(`The marks on ${report.name} are ${read(spread.value!)} apart (limit ${given(spread.max)})${cause}.`);
  const plumb = failing.get('plumb');
  if (plumb)
    problems.push(
      `The beam is ${(plumb.value! * 1000).toFixed(1)} mrad out of plumb (limit ${hundredths(plumb.max * 1000)} mrad).`,
    );
  return problems.join(' ');
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
  return bracketed(placeInWords(carriages, first.at, first.with));
}

/** Why these adjusters are chosen, and not simpler ones that a person may expect. */
export function choiceInWords(
  { adjusters, probability }: Plan,
  { report, station }: StationVerdict,
  simpler?: SimplerMove,
): string {
  const shifted = [
    ...new Set(
      adjusters
        .filter(({ kind }) => kind === 'shift')
        .map(({ part }) => (part === 'tube' ? 'the tube' : `the block of ${part}`)),
    ),
  ];
  const chance = `If ${shifted.length > 0 ? 'everything is moved as stated' : 'the screws are turned as stated'}, the chance that ${report.name} is then within is ${percent(probability)}.`;
  const otherwise = simpler && insteadInWords(simpler, report.frame.units);
  if (adjusters.some(({ kind }) => kind === 'piston'))
    return sentences(
      otherwise,
      'Turning all three screws alike moves the mirror straight: the beam shifts without changing direction',
      chance,
    );
  if (shifted.length > 0)
    return sentences(`${otherwise ?? shiftReason(station)}, so ${listed(shifted)} must move`, chance);
  const parts = [...new Set(adjusters.map(({ part }) => part))];
  return sentences(`The screws of ${listed(parts)} aim the beam at ${report.name}`, otherwise, chance);
}

function shiftReason({ index, element }: StationVerdict['station']): string {
  if (index > 0) return 'Screws alone would take more turns';
  return element.kind === 'mirror' ? 'The mirror’s own screws never move the mark on it' : 'No mirror is before it';
}

function sentences(...some: readonly (string | undefined)[]): string {
  return some
    .filter((one) => one !== undefined)
    .map((one) => (one.endsWith('.') ? one : `${one}.`))
    .join(' ');
}

/** The result of the simpler move, without a full stop. */
function insteadInWords({ kind, part, remaining, probability }: SimplerMove, units: Units): string {
  const what = { 'one screw': 'One screw alone', 'last mirror': `The screws of ${part} alone`, angles: 'Angles alone' }[
    kind
  ];
  if (!remaining) return `${what} would have a chance of ${percent(probability)}`;
  const { station, limit, value, max } = remaining;
  const lengthInWords = (length: number) =>
    limit === 'plumb' ? `${hundredths(Math.round(length * 10_000) / 10)} mrad` : lengthsIn(units).short(length);
  const deviation = {
    centre: `the mark on ${station} ${lengthInWords(value)} off centre`,
    spread: `the marks on ${station} ${lengthInWords(value)} apart`,
    plumb: `the beam ${lengthInWords(value)} out of plumb`,
  }[limit];
  return `${what} would leave ${deviation} (limit ${limit === 'plumb' ? `${hundredths(max * 1000)} mrad` : lengthsIn(units).given(max)})`;
}
