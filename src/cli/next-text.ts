/** The text of `next`: the step, why, what to expect and the cautions; then the readings of every station. */
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
  cautionsNow,
  frameInWords,
  readingInWords,
  requirementInWords,
  slopeInWords,
  stateInWords,
  unlimitedInWords,
  waysInWords,
  type Book,
  type Cautions,
} from '../language/index.ts';
import { findingLine, type PlacedFinding } from './findings.ts';
import type { Style } from './paint.ts';
import { textWidth, type Terminal } from './terminal.ts';
import { broken, labelled, wrapped } from './wrap.ts';

type Screen = Pick<Terminal, 'paint' | 'columns'>;

/** The step stands first, where the reader looks. */
export function nextText(file: string, book: Book, findings: readonly PlacedFinding[], screen: Screen): string {
  const evaluation = book.evaluation();
  return evaluationText({ file, evaluation, findings, screen }, (steps) => cautionsNow(book, steps));
}

interface Shown {
  readonly file: string;
  readonly evaluation: Evaluation;
  readonly findings: readonly PlacedFinding[];
  readonly screen: Screen;
}

/** @param cautions for steps */
export function evaluationText(
  { file, evaluation, findings, screen }: Shown,
  cautions: (steps: readonly Step[]) => Cautions,
): string {
  const { paint } = screen;
  const width = textWidth(screen);
  return [
    ...broken(harmless(file), width).map((line) => paint('bold', line)),
    '',
    ...verdictLines(evaluation, screen),
    ...stepsLines(evaluation, evaluation.stations, width),
    ...learntLines(evaluation, width),
    ...otherWayLines(evaluation, screen),
    ...wholeLines(evaluation, screen),
    ...cautionLines(cautions([...evaluation.steps, ...(evaluation.whole?.steps ?? [])]), screen),
    ...evaluation.stations.flatMap((station) => ['', ...stationLines(station, screen)]),
    ...noticed(file, findings, width),
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

function stationLines(station: StationReport, screen: Screen): string[] {
  const width = textWidth(screen);
  const { paint } = screen;
  const { name, state, readings } = station;
  const isShort = name.length < LABEL;
  const head = [
    ...(isShort ? [] : broken(name, width)),
    ...labelled(isShort ? name : '', stateInWords(station), LABEL, width).map(
      (line) => line.slice(0, LABEL) + paint(STATE_STYLE[state], line.slice(LABEL)),
    ),
  ];
  if (readings.length === 0) return head;
  const slope = slopeInWords(station);
  return [
    ...head,
    ...labelled('', frameInWords(station.frame), LABEL, width),
    ...station.readings.flatMap((reading) => labelled('  mark', readingInWords(reading, station), LABEL, width)),
    ...(slope ? labelled(`  ${slope.name}`, slope.words, LABEL, width) : []),
    ...station.requirements.flatMap((requirement) =>
      labelled(`  ${requirement.limit}`, requirementInWords(requirement, station), LABEL, width),
    ),
  ];
}

const LABEL = 10;

function verdictLines({ verdict, steps, stations }: Evaluation, screen: Screen): string[] {
  // After the release there is no step that reports it.
  const unlimited = verdict === 'within' && steps.length === 0 ? unlimitedInWords(stations) : undefined;
  const headline = {
    within: 'WITHIN: every station with limits is within; no lock nut is logged as loose.',
    continue: 'NEXT',
    blocked: 'BLOCKED',
  }[verdict];
  const style = { within: 'green', continue: 'bold', blocked: 'red' } as const;
  const width = textWidth(screen);
  return [
    ...wrapped(headline, '', width).map((line) => screen.paint(style[verdict], line)),
    ...(unlimited === undefined ? [] : wrapped(unlimited, '', width)),
    ...whyLines(steps, width),
  ];
}

function whyLines(steps: readonly Step[], width: number): string[] {
  const why = steps.find((step) => step.why !== undefined)?.why;
  return why === undefined ? [] : labelled('  why', why, LABEL, width);
}

/** The steps, and the marks to expect after them. */
function stepsLines(
  { steps, expected }: Pick<Evaluation, 'steps' | 'expected'>,
  stations: readonly StationReport[],
  width: number,
): string[] {
  const trials = steps.flatMap((step) => (step.kind === 'turn' && step.isTrial ? [trialInWords(step)] : []));
  const expectation =
    trials.length > 0 ? labelled('  expect', listed(trials), LABEL, width) : expectedLines(expected, stations, width);
  return [...steps.flatMap((step, k) => stepLines(step, k, steps.length, width)), ...expectation];
}

/** Near an even chance, the way that is not advised. */
function otherWayLines(evaluation: Evaluation, screen: Screen): string[] {
  const ways = waysInWords(evaluation);
  if (!ways) return [];
  const [again, turned] = ways;
  const isTurned = evaluation.steps.some(({ kind }) => kind === 'turn');
  const { steps } = isTurned ? again : turned;
  const width = textWidth(screen);
  const why = `The chances are nearly even, so choose. ${again.say} ${turned.say}`;
  return [
    '',
    screen.paint('bold', isTurned ? 'OR SHOOT AGAIN' : 'OR TURN NOW'),
    ...labelled('  why', why, LABEL, width),
    ...stepsLines({ steps, expected: [] }, evaluation.stations, width),
  ];
}

function wholeLines({ whole, stations }: Evaluation, screen: Screen): string[] {
  if (!whole) return [];
  const width = textWidth(screen);
  const head = screen.paint('bold', 'OR ALL AT ONCE');
  return ['', head, ...whyLines(whole.steps, width), ...stepsLines(whole, stations, width)];
}

/** How to fill in the blanks. */
const BLANKS = 'Enter 0 for a centred axis; omit an axis only if you did not read it.';

function stepLines({ kind, say, cell }: Step, k: number, of: number, width: number): string[] {
  const number = of > 1 ? `  ${k + 1}.` : '  do';
  const text =
    cell
      ?.trimEnd()
      .split('\n')
      .map((line) => `${' '.repeat(LABEL)}| ${line}`) ?? [];
  return [
    ...labelled(number, say, LABEL, width),
    ...text,
    ...(kind === 'shoot' ? labelled('', `(${BLANKS})`, LABEL, width) : []),
  ];
}

function expectedLines(expected: readonly Expected[], stations: readonly StationReport[], width: number): string[] {
  return expected.flatMap((one, k) =>
    labelled(
      k === 0 ? '  expect' : '',
      expectedInWords(one, stations.find(({ name }) => name === one.station)!),
      LABEL,
      width,
    ),
  );
}

/** Users in a hurry read no more. */
const MOST_LEARNT = 3;

/** The screws to turn now come first. */
function learntLines({ learnt, steps }: Evaluation, width: number): string[] {
  const isTurned = (one: Learnt) =>
    'screw' in one && steps.some((step) => step.kind === 'turn' && step.part === one.part && step.screw === one.screw);
  const useful = [...learnt.filter(isTurned), ...learnt.filter((one) => !isTurned(one))].slice(0, MOST_LEARNT);
  return useful.flatMap(({ say }, k) => labelled(k === 0 ? '  learnt' : '', say, LABEL, width));
}

/** A single one needs no headline. */
function cautionLines({ fires, lines }: Cautions, screen: Screen): string[] {
  const width = textWidth(screen);
  if (lines.length < 2) return lines.flatMap((line) => ['', ...wrapped(line, '', width)]);
  return [
    '',
    screen.paint('bold', fires ? 'BEFORE YOU FIRE' : 'TAKE CARE'),
    ...lines.flatMap((line) => wrapped(line, '  ', width)),
  ];
}

/** Hints are shown in the editor only. */
function noticed(file: string, findings: readonly PlacedFinding[], width: number): string[] {
  const expectation = findings.filter(({ severity }) => severity !== 'hint');
  return expectation.length === 0
    ? []
    : ['', 'FINDINGS', ...expectation.flatMap((finding) => wrapped(findingLine(file, finding), '  ', width))];
}
