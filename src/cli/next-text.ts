/** The text of `next`: the readings of every station, then the step, why, what to expect, and the cautions. */
import {
  harmless,
  type Evaluation,
  type Expected,
  type Learnt,
  type StationReport,
  type Step,
} from '../model/index.ts';
import { expectedInWords, listed, trialInWords } from '../words/index.ts';
import {
  cautionsFor,
  frameInWords,
  readingInWords,
  requirementInWords,
  slopeInWords,
  stateInWords,
  unlimitedInWords,
} from '../language/index.ts';
import { findingLine, type PlacedFinding } from './findings.ts';
import type { Paint, Style } from './paint.ts';
import { broken, labelled, wrapped } from './wrap.ts';

/** The step stands last, where the reader looks when the program ends. @param wavelength of the laser, mm */
export function nextText(
  file: string,
  evaluation: Evaluation,
  findings: readonly PlacedFinding[],
  paint: Paint,
  wavelength?: number,
): string {
  return [
    ...broken(harmless(file)).map((line) => paint('bold', line)),
    ...evaluation.stations.flatMap((station) => ['', ...stationLines(station, paint)]),
    ...noticed(file, findings),
    ...cautionLines([...evaluation.steps, ...(evaluation.whole?.steps ?? [])], paint, wavelength),
    '',
    ...verdictLines(evaluation, paint),
    ...stepsLines(evaluation, evaluation.stations),
    ...learntLines(evaluation),
    ...wholeLines(evaluation, paint),
    '',
  ].join('\n');
}

const STATE_STYLE: Readonly<Record<StationReport['state'], Style>> = {
  within: 'green',
  borderline: 'yellow',
  outside: 'red',
  incomplete: 'dim',
  stale: 'dim',
  unread: 'dim',
  unlimited: 'dim',
};

function stationLines(station: StationReport, paint: Paint): string[] {
  const { name, state, readings } = station;
  const stated = paint(STATE_STYLE[state], stateInWords(station));
  const head = name.length < LABEL ? [name.padEnd(LABEL) + stated] : [...broken(name), ' '.repeat(LABEL) + stated];
  if (readings.length === 0) return head;
  const slope = slopeInWords(station);
  return [
    ...head,
    ...labelled('', frameInWords(station.frame), LABEL),
    ...station.readings.flatMap((reading) => labelled('  mark', readingInWords(reading, station), LABEL)),
    ...(slope ? labelled(`  ${slope.name}`, slope.words, LABEL) : []),
    ...station.requirements.flatMap((requirement) =>
      labelled(`  ${requirement.limit}`, requirementInWords(requirement, station), LABEL),
    ),
  ];
}

const LABEL = 10;

function verdictLines({ verdict, steps, stations }: Evaluation, paint: Paint): string[] {
  // After the release there is no step that reports it.
  const unlimited = verdict === 'within' && steps.length === 0 ? unlimitedInWords(stations) : undefined;
  const headline = {
    within: 'WITHIN: every station with limits is within, and no lock nut is logged as loose.',
    continue: 'NEXT',
    blocked: 'BLOCKED',
  }[verdict];
  const style = { within: 'green', continue: 'bold', blocked: 'red' } as const;
  return [paint(style[verdict], headline), ...(unlimited === undefined ? [] : [unlimited]), ...whyLines(steps)];
}

function whyLines(steps: readonly Step[]): string[] {
  const why = steps.find((step) => step.why !== undefined)?.why;
  return why === undefined ? [] : labelled('  why', why, LABEL);
}

/** The steps, and the marks to expect after them. */
function stepsLines(
  { steps, expected }: Pick<Evaluation, 'steps' | 'expected'>,
  stations: readonly StationReport[],
): string[] {
  const trials = steps.flatMap((step) => (step.kind === 'turn' && step.isTrial ? [trialInWords(step)] : []));
  const expectation =
    trials.length > 0 ? labelled('  expect', listed(trials), LABEL) : expectedLines(expected, stations);
  return [...steps.flatMap((step, k) => stepLines(step, k, steps.length)), ...expectation];
}

function wholeLines({ whole, stations }: Evaluation, paint: Paint): string[] {
  return whole ? ['', paint('bold', 'OR ALL AT ONCE'), ...whyLines(whole.steps), ...stepsLines(whole, stations)] : [];
}

/** How to fill in the blanks. */
const BLANKS = 'Enter 0 for a centred axis; omit an axis only if you did not read it.';

function stepLines({ kind, say, cell }: Step, k: number, of: number): string[] {
  const number = of > 1 ? `  ${k + 1}.` : '  do';
  const text =
    cell
      ?.trimEnd()
      .split('\n')
      .map((line) => `${' '.repeat(LABEL)}| ${line}`) ?? [];
  return [...labelled(number, say, LABEL), ...text, ...(kind === 'shoot' ? labelled('', `(${BLANKS})`, LABEL) : [])];
}

function expectedLines(expected: readonly Expected[], stations: readonly StationReport[]): string[] {
  return expected.flatMap((one, k) =>
    labelled(
      k === 0 ? '  expect' : '',
      expectedInWords(one, stations.find(({ name }) => name === one.station)!),
      LABEL,
    ),
  );
}

/** Users in a hurry read no more. */
const MOST_LEARNT = 3;

/** The screws to turn now come first. */
function learntLines({ learnt, steps }: Evaluation): string[] {
  const isTurned = (one: Learnt) =>
    'screw' in one && steps.some((step) => step.kind === 'turn' && step.part === one.part && step.screw === one.screw);
  const useful = [...learnt.filter(isTurned), ...learnt.filter((one) => !isTurned(one))].slice(0, MOST_LEARNT);
  return useful.flatMap(({ say }, k) => labelled(k === 0 ? '  learnt' : '', say, LABEL));
}

function cautionLines(steps: readonly Step[], paint: Paint, wavelength: number | undefined): string[] {
  const { fires, lines } = cautionsFor(steps, wavelength);
  if (lines.length === 0) return [];
  return ['', paint('bold', fires ? 'BEFORE YOU FIRE' : 'TAKE CARE'), ...lines.flatMap((line) => wrapped(line, '  '))];
}

/** Hints are shown in the editor only. */
function noticed(file: string, findings: readonly PlacedFinding[]): string[] {
  const expectation = findings.filter(({ severity }) => severity !== 'hint');
  return expectation.length === 0
    ? []
    : ['', 'FINDINGS', ...expectation.flatMap((finding) => wrapped(findingLine(file, finding), '  '))];
}
