/** What to do now as one sentence, and what belongs to it, the most important first: neither is ever cut. */
import { listed, percent, placeName } from '../../words/index.ts';
import {
  lengthsIn,
  turnInCell,
  type Evaluation,
  type ShotRequest,
  type Slot,
  type StationReport,
  type Step,
} from '../../model/index.ts';
import { shortStep } from './step-hint.ts';

/** The act now, and the rest in sentences. */
export interface Sentence {
  /** `M1: A out 1/4, B in 1/8`; `Shoot M2 near and far`; `Make safe (4 open)` */
  readonly sentence: string;
  readonly then: readonly string[];
}

/** @param steps up to the next shot */
export function sentenceOf(evaluation: Evaluation, steps: readonly Step[]): Sentence {
  const { verdict, chance } = evaluation;
  const whys = steps.flatMap(({ why }) => (why === undefined ? [] : sentencesIn(why)));
  const says = verdict === 'blocked' && steps[0] ? sentencesIn(steps[0].say) : [];
  const [act, more] = verdict === 'continue' ? actOf(evaluation, steps) : [capital(stateOf(evaluation, steps)), []];
  return {
    sentence: act,
    then: [
      ...says,
      ...more,
      ...(chance !== undefined && verdict === 'continue' ? [`Within afterwards: ${percent(chance)}.`] : []),
      ...whys,
    ],
  };
}

/** `blocked: resolve the conflict first`, `within: sign off` */
function stateOf(evaluation: Evaluation, steps: readonly Step[]): string {
  const { verdict } = evaluation;
  const isBrief = steps.some(({ kind, brief }) => kind === 'care' || brief !== undefined);
  if (verdict === 'blocked' && !isBrief) return 'blocked: no adjustment helps (see why)';
  const acts = steps.map((step) => shortStep(step, evaluation));
  return acts.length === 0 ? verdict : `${verdict}: ${acts.join('; ')}`;
}

/** Blanks are to be filled in: their step is logged. */
export function readingSentence(station: string, blank: readonly Slot[], count: number): Sentence {
  const names = blank.map(({ place, number }) => stopOf(place.name, number)).filter((name) => name !== '');
  const isShort = names.every((name) => !name.includes(','));
  const [what, places] = isShort
    ? [`${station} ${listed(names)}`.trim(), []]
    : [station, [`${capital(names.join('; '))}.`]];
  const done = count - blank.length;
  return {
    sentence: `Read the ${blank.length > 1 ? 'tapes' : 'tape'}: ${what}`,
    then: [
      ...places,
      ...(done > 0 ? [`${done} of ${count} marks ${done === 1 ? 'is' : 'are'} in the log.`] : []),
      'Click the tape where the burn is, or type it.',
    ],
  };
}

/** `near`, without the name of the only carriage; `near (2)`. */
function stopOf(name: string, number: number | undefined): string {
  const short = name.includes(', ') ? name : name.replace(/^\S+ (?=near$|far$|at )/, '');
  return number === undefined ? short : `${short} (${number})`.trim();
}

/** The acts before the next shot are one; a shot alone is one too. */
function actOf(evaluation: Evaluation, steps: readonly Step[]): readonly [act: string, then: readonly string[]] {
  const [first] = steps;
  const shot = steps.find((step) => step.kind === 'shoot');
  if (!first) return [capital(evaluation.verdict), []];
  if (first.kind === 'shoot') return shooting(evaluation, first);
  const moves = steps.filter((step) => step.kind === 'turn' || step.kind === 'shift');
  const after = shot ? [thenShoot(evaluation, shot)] : [];
  if (first.kind === 'turn' || first.kind === 'shift' || (first.kind === 'lock' && moves.length > 0))
    return [
      steps.some(({ isTrial }) => isTrial)
        ? `Trial turn: ${inOne(moves, evaluation).replace(': ', ', ')}`
        : inOne(moves, evaluation),
      [...nutsIn(steps), ...after],
    ];
  const others = steps.slice(1).filter((step) => step !== shot);
  return [
    capital(shortStep(first, evaluation)),
    [...others.map((step) => `Then ${shortStep(step, evaluation)}.`), ...after],
  ];
}

/** `M1: A out 1/4, B in 1/8; tube 1.25 mm rear`: the screws of a mirror together. */
function inOne(moves: readonly Step[], evaluation: Evaluation): string {
  const parts = new Map<string, string[]>();
  for (const step of moves) {
    if (step.kind === 'turn')
      parts.set(step.part, [...(parts.get(step.part) ?? []), `${step.screw} ${turnInCell(step.turns)}`]);
    else parts.set(shortStep(step, evaluation), []);
  }
  return [...parts].map(([part, turns]) => (turns.length > 0 ? `${part}: ${turns.join(', ')}` : part)).join('; ');
}

function nutsIn(steps: readonly Step[]): string[] {
  const locked = (to: 'loose' | 'tight') =>
    listed(steps.flatMap((step) => (step.kind === 'lock' && step.to === to ? [step.part] : [])));
  const [loose, tight] = [locked('loose'), locked('tight')];
  if (loose !== '' && tight !== '') return [`Loosen the nuts of ${loose} first, tighten them afterwards.`];
  if (loose !== '') return [`Loosen the nuts of ${loose} first.`];
  return tight === '' ? [] : [`Tighten the nuts of ${tight} afterwards.`];
}

function thenShoot(evaluation: Evaluation, shot: Extract<Step, { kind: 'shoot' }>): string {
  const [act, places] = shooting(evaluation, shot);
  return places.length === 0 ? `Then ${lower(act)}.` : `Then ${lower(act)}: ${lower(places[0]!)}`;
}

/** With more than one carriage the places do not fit into the sentence. */
function shooting(
  { stations }: Evaluation,
  { station, shots }: Extract<Step, { kind: 'shoot' }>,
): readonly [act: string, then: readonly string[]] {
  const report = stations.find(({ name }) => name === station);
  const names = shots.map((shot) => nameOf(shot, report)).filter((name) => name !== '');
  if (names.every((name) => !name.includes(', ')))
    return [`Shoot ${station} ${listed(names.map((name) => stopOf(name, undefined)))}`.trim(), []];
  return [`Shoot ${station}`, [`${capital(names.join('; '))}.`]];
}

function nameOf({ at, with: others, height }: ShotRequest, report: StationReport | undefined): string {
  const { name } = placeName(report?.carriages ?? [], at, others);
  return height === undefined || !report
    ? name
    : [name, `${lengthsIn(report.frame.units).given(height)} below`].filter(Boolean).join(', ');
}

function capital(text: string): string {
  return `${text.slice(0, 1).toUpperCase()}${text.slice(1)}`;
}

function lower(text: string): string {
  return `${text.slice(0, 1).toLowerCase()}${text.slice(1)}`;
}

function sentencesIn(text: string): string[] {
  return text.split(/(?<=[.)])\s+(?=\p{Lu})/u);
}
