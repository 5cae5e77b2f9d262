/** `next` for people: what every station's marks say, then the step, why, what to expect, and the cautions. */
import { cautions } from '../../shared/cautions.ts';
import type { Evaluation, Expected, Reading, Requirement, StationReport, Step } from '../model/index.ts';
import { markInWords, placeInWords } from '../alignment/index.ts';
import { findingLine, type PlacedFinding } from './findings.ts';
import type { Paint, Style } from './paint.ts';
import { labelled, wrapped } from './wrap.ts';

export function nextText(file: string, evaluation: Evaluation, findings: readonly PlacedFinding[], paint: Paint): string {
  return [
    paint('bold', file),
    ...evaluation.stations.flatMap((station) => ['', ...stationLines(station, paint)]),
    '',
    ...verdictLines(evaluation, paint),
    ...evaluation.steps.flatMap((step, k) => stepLines(step, k, evaluation.steps.length)),
    ...expectedLines(evaluation),
    ...cautionLines(evaluation.steps, paint),
    ...noticed(file, findings),
    '',
  ].join('\n');
}

const STATE_STYLE: Readonly<Record<StationReport['state'], Style>> = { within: 'green', borderline: 'yellow', outside: 'red', stale: 'dim', unread: 'dim' };

function stationLines(station: StationReport, paint: Paint): string[] {
  const { name, state, probability, requirements, frame } = station;
  const sure = probability === undefined ? '' : `, ${percent(probability)} sure to be within`;
  const said = requirements.length === 0 && state !== 'unread' && state !== 'stale' ? 'no limits' : `${state}${state === 'within' || state === 'outside' || state === 'borderline' ? sure : ''}`;
  const head = `${name.padEnd(LABEL)}${paint(STATE_STYLE[state], said)}`;
  if (state === 'unread') return [head];
  return [head, ...labelled('', frameInWords(frame), LABEL), ...station.readings.flatMap((reading) => readingLines(reading, station)), ...slopeLines(station), ...requirements.flatMap(requirementLines)];
}

const LABEL = 10;

function frameInWords({ runs, right }: StationReport['frame']): string {
  if (runs === 'up' || runs === 'down') return `Beam runs ${runs}; marks are told in the machine’s words.`;
  return `Beam runs ${runs}; looking along it, right is the machine’s ${right}.`;
}

function readingLines(reading: Reading, station: StationReport): string[] {
  const place = placeInWords(reading.at, reading.with);
  const height = reading.height > 0 ? `${reading.height} mm below: ` : '';
  const mark = reading.none ? 'no mark: the beam missed the tape' : markInWords(reading.right, reading.up, station.frame);
  return labelled('  mark', `${place === 'here' ? '' : `${place}: `}${height}${mark}${station.state === 'stale' ? ' (stale)' : ''}`, LABEL);
}

function slopeLines({ slope, frame, requirements }: StationReport): string[] {
  if (!slope) return [];
  const label = requirements.some(({ limit }) => limit === 'plumb') ? '  plumb' : '  slope';
  const { right, up, u } = slope;
  return labelled(label, `${markInWords(right * 1000, up * 1000, frame)} (mrad, each ± ${(Math.max(u.right, u.up) * 1000).toFixed(1)})`, LABEL);
}

function requirementLines({ limit, at, with: others, value, u, max, probability }: Requirement): string[] {
  const [scale, unit] = limit === 'plumb' ? [1000, 'mrad'] : [1, 'mm'];
  if (value === undefined || u === undefined) return labelled(`  ${limit}`, `not known; limit ${max * scale} ${unit}`, LABEL);
  const place = at === undefined || at === 'here' && !others ? '' : ` (${placeInWords(at, others)})`;
  const chance = probability === undefined ? '' : `; within: ${percent(probability)}`;
  return labelled(`  ${limit}`, `${(value * scale).toFixed(1)} ± ${(u * scale).toFixed(1)} ${unit}${place}, limit ${max * scale} ${unit}${chance}`, LABEL);
}

/** 0.999 is not "100 %", and 0.004 not "0 %". */
export function percent(probability: number): string {
  if (probability > 0.99) return 'over 99 %';
  return probability < 0.01 ? 'under 1 %' : `${Math.round(probability * 100)} %`;
}

function verdictLines({ verdict, steps }: Evaluation, paint: Paint): string[] {
  const said = { within: 'WITHIN: every station with limits is within, and nothing is loose.', continue: 'NEXT', blocked: 'BLOCKED' }[verdict];
  const style = { within: 'green', continue: 'bold', blocked: 'red' } as const;
  const why = steps.find((step) => step.why !== undefined)?.why;
  return [paint(style[verdict], said), ...(why === undefined ? [] : labelled('  why', why, LABEL))];
}

function stepLines({ say, cell }: Step, k: number, of: number): string[] {
  const number = of > 1 ? `  ${k + 1}.` : '  do';
  const text = cell?.trimEnd().split('\n').map((line) => `${' '.repeat(LABEL)}| ${line}`) ?? [];
  return [...labelled(number, say, LABEL), ...text];
}

function expectedLines({ expected, stations }: Evaluation): string[] {
  return expected.flatMap((one, k) => labelled(k === 0 ? '  expect' : '', expectedInWords(one, stations), LABEL));
}

function expectedInWords({ station, at, with: others, right, up, u }: Expected, stations: readonly StationReport[]): string {
  const frame = stations.find(({ name }) => name === station)!.frame;
  const place = placeInWords(at, others);
  return `${station}${place === 'here' ? '' : ` ${place}`}: ${markInWords(right, up, frame)}, give or take ${(2 * Math.max(u.right, u.up)).toFixed(1)} mm`;
}

function cautionLines(steps: readonly Step[], paint: Paint): string[] {
  const fires = steps.some(({ kind }) => kind === 'shoot') ? cautions.fire : [];
  const tube = steps.some((step) => step.kind === 'shift' && step.part === 'tube') ? cautions.tube : [];
  if (fires.length + tube.length === 0) return [];
  return ['', paint('bold', fires.length > 0 ? 'BEFORE YOU FIRE' : 'TAKE CARE'), ...[...tube, ...fires, ...cautions.defer].flatMap((line) => wrapped(line, '  '))];
}

/** Hints are for the editor. */
function noticed(file: string, findings: readonly PlacedFinding[]): string[] {
  const told = findings.filter(({ severity }) => severity !== 'hint');
  return told.length === 0 ? [] : ['', 'NOTICED', ...told.flatMap((finding) => wrapped(findingLine(file, finding), '  '))];
}
