/** The answers of `--json`: lengths mm, angles mrad, turns in turns; unknown values are absent. */
import type {
  CareHistory,
  Evaluation,
  Expected,
  Learnt,
  Requirement,
  SessionHistory,
  StationReport,
  Step,
  Whole,
} from '../model/index.ts';
import type { PlacedFinding } from './findings.ts';
import { jsonLine } from './json-line.ts';

const FORMAT = 1;
/** mrad per rad */
const MILLI = 1000;

export function checkJson(file: string, findings: readonly PlacedFinding[]): string {
  return jsonLine({ format: FORMAT, file, findings });
}

export function nextJson(file: string, evaluation: Evaluation | undefined, findings: readonly PlacedFinding[]): string {
  return jsonLine({
    format: FORMAT,
    file,
    verdict: evaluation?.verdict ?? 'blocked',
    stations: (evaluation?.stations ?? []).map(station),
    steps: (evaluation?.steps ?? []).map(step),
    expected: (evaluation?.expected ?? []).map(expected),
    whole: evaluation?.whole && whole(evaluation.whole),
    learnt: (evaluation?.learnt ?? []).map(learnt),
    findings,
  });
}

/** Transmissions are ratios. */
export function careJson(file: string, history: CareHistory | undefined, findings: readonly PlacedFinding[]): string {
  const nothing: CareHistory = { parts: [], power: [], arrivals: [], transmissions: [], changes: [] };
  return jsonLine({ format: FORMAT, file, ...(history ?? nothing), findings });
}

export function sessionsJson(
  file: string,
  history: SessionHistory | undefined,
  findings: readonly PlacedFinding[],
): string {
  return jsonLine({ format: FORMAT, file, ...(history ?? { sessions: [], forecasts: [] }), findings });
}

function station({ name, state, probability, requirements, slope }: StationReport) {
  return {
    name,
    state,
    probability,
    requirements: requirements.map(requirement),
    slope: slope && {
      right: slope.right * MILLI,
      up: slope.up * MILLI,
      u: { right: slope.u.right * MILLI, up: slope.u.up * MILLI },
    },
  };
}

function requirement({ limit, at, value, u, max, probability }: Requirement) {
  const scale = limit === 'plumb' ? MILLI : 1;
  return { limit, at, value: scaled(value, scale), u: scaled(u, scale), max: max * scale, probability };
}

function scaled(value: number | undefined, by: number): number | undefined {
  return value === undefined ? undefined : value * by;
}

/** What to do and why are one text. */
function step({ why, handlesLens: _, isTrial: __, brief: ___, ...rest }: Step) {
  const output = { ...rest, say: why === undefined ? rest.say : `${rest.say} ${why}` };
  if (output.kind !== 'shift') return output;
  const {
    by: [x, y, z],
    ...shift
  } = output;
  return { ...shift, x, y, z };
}

function expected({ station: name, at, with: others, right, up, u, ellipse: { major, minor, angle } }: Expected) {
  return { station: name, at, with: others, right, up, u, ellipse: { major, minor, angle: angle * MILLI } };
}

function whole({ probability, steps, expected: marks }: Whole) {
  return { probability, steps: steps.map(step), expected: marks.map(expected) };
}

function learnt(one: Learnt) {
  if (one.kind === 'carriage') return { ...one, turn: one.turn * MILLI, u: one.u * MILLI };
  if (one.kind === 'inclination')
    return { ...one, off: one.off.map(({ toward, by, u }) => ({ toward, by: by * MILLI, u: u * MILLI })) };
  return one;
}
