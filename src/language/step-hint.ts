/** Behind the last cell: what to do now. */
import { listed, placeInCell, shiftInWords } from '../alignment/index.ts';
import { turnInCell, type Evaluation, type ShotRequest, type Step } from '../model/index.ts';
import { cautionsFor } from './cautions-for.ts';
import type { HintsFor } from './hints.ts';
import { inOneLine } from './in-one-line.ts';

export const stepHint: HintsFor = (book, { cell, index }) => {
  const { entries, split } = book.workbook;
  if (index !== entries.length - 1) return [];
  const evaluation = book.evaluation();
  const text = split.cells[cell]!.text.trimEnd();
  return [{ span: { start: 0, end: text.length }, label: adviceInBrief(evaluation), tooltip: adviceInFull(evaluation) }];
};

/** The steps that are done before the log is read again. */
export function stepsNow({ steps }: Evaluation): readonly Step[] {
  const shot = steps.findIndex(({ kind }) => kind === 'shoot');
  return shot < 0 ? steps : steps.slice(0, shot + 1);
}

/** `next: M1 B in 1/4, C out 1/8; shoot M2 near and far` */
export function adviceInBrief(evaluation: Evaluation): string {
  const { verdict } = evaluation;
  if (verdict === 'blocked') return 'blocked: no step helps, see why';
  const said = stepsNow(evaluation).map(stepInBrief);
  const start = verdict === 'within' ? 'within' : 'next';
  const [first, ...others] = said;
  return first === undefined ? start : inOneLine([`${start}: ${first}`, ...others], '; ');
}

/** Why, what to know before it is done, and each step. */
export function adviceInFull(evaluation: Evaluation): string {
  const steps = stepsNow(evaluation);
  const why = steps.find((step) => step.why !== undefined)?.why;
  const { lines } = cautionsFor(steps);
  return [...(why === undefined ? [] : [why]), ...(lines.length > 0 ? [lines.join(' ')] : []), ...steps.map(({ say }, k) => (steps.length > 1 ? `${k + 1}. ${say}` : say))].join('\n\n');
}

export function stepInBrief(step: Step): string {
  switch (step.kind) {
    case 'turn': return `${step.part} ${step.screw} ${turnInCell(step.turns)}`;
    case 'shift': return `${step.part}${step.end ? ` ${step.end}` : ''} ${shiftInWords(step.by)}`;
    case 'lock': return step.to === 'tight' ? `tighten ${step.part}` : `loosen ${step.part}`;
    case 'care': return `${step.part}: ${step.did}`;
    case 'check': return `check ${listed(step.items)}`;
    case 'repair': return 'repair';
    case 'release': return 'sign it off';
    case 'shoot': return `shoot ${step.station} ${listed(step.shots.map(shotInBrief).filter((shot) => shot !== ''))}`.trim();
  }
}

function shotInBrief({ at, with: others, height }: ShotRequest): string {
  const place = placeInCell(at, others);
  return [place.includes(', ') ? `(${place})` : place, height === undefined ? '' : `${height} mm below`].filter(Boolean).join(' ');
}
