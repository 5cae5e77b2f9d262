/** What to do now, in a line and in full: the same words in every view. */
import { bracketed, listed, shortPlace, shiftInWords } from '../../words/index.ts';
import {
  lengthsIn,
  turnInCell,
  type Evaluation,
  type ShotRequest,
  type StationReport,
  type Step,
} from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { cautionsFor, wavelengthOf } from '../words/cautions-for.ts';
import { unitsOf } from '../book/units-of.ts';

/** The steps up to the next shot. */
export function stepsNow({ steps }: Evaluation): readonly Step[] {
  const shot = steps.findIndex(({ kind }) => kind === 'shoot');
  return shot < 0 ? steps : steps.slice(0, shot + 1);
}

/** Why, the cautions, and each step. The book must be up to date. */
export function adviceInFull(book: Book): string {
  const steps = stepsNow(book.evaluation());
  const why = steps.find((step) => step.why !== undefined)?.why;
  const { lines } = cautionsFor(steps, wavelengthOf(book));
  return [
    ...(why === undefined ? [] : [why]),
    ...(lines.length > 0 ? [lines.join(' ')] : []),
    ...steps.map(({ say }, k) => (steps.length > 1 ? `${k + 1}. ${say}` : say)),
  ].join('\n\n');
}

export function shortStep(step: Step, { stations }: Pick<Evaluation, 'stations'>): string {
  if (step.brief !== undefined) return step.brief;
  switch (step.kind) {
    case 'turn':
      return `${step.part} ${step.screw} ${turnInCell(step.turns)}`;
    case 'shift':
      return `${step.part}${step.end ? ` ${step.end}` : ''} ${shiftInWords(step.by, unitsOf({ stations }))}`;
    case 'lock':
      return step.to === 'tight' ? `tighten ${step.part}` : `loosen ${step.part}`;
    case 'care':
      return `${CARE[step.did] ?? step.did} ${step.part}`;
    case 'check':
      return `check ${listed(step.items)}`;
    case 'repair':
      return 'repair';
    case 'release':
      return 'sign off';
    case 'shoot': {
      const station = stations.find(({ name }) => name === step.station);
      return `shoot ${step.station} ${listed(step.shots.map((shot) => shortShot(shot, station)).filter((shot) => shot !== ''))}`.trim();
    }
  }
}

const CARE: Readonly<Partial<Record<string, string>>> = { replaced: 'replace', tightened: 'tighten' };

function shortShot({ at, with: others, height }: ShotRequest, station: StationReport | undefined): string {
  const place = station ? shortPlace(station.carriages, at, others) : '';
  return [
    place.includes(', ') ? bracketed(place).trim() : place,
    height === undefined || !station ? '' : `${lengthsIn(station.frame.units).given(height)} below`,
  ]
    .filter(Boolean)
    .join(' ');
}
