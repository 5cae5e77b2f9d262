/**
 * A mark outside the aperture that the tape covers: most often inches for millimetres, or a slip of the decimal point.
 */
import { child, findingAt, lengthsIn, type Finding, type LogEntry, type Mark, type Shot } from '../model/index.ts';
import { estimate, predictMark, READING, type Estimate, type State } from '../estimate/index.ts';
import { NO_MOVE, queryAt, carriagesAt, station, type Station } from '../machine/index.ts';
import { markWithUnits } from '../words/index.ts';
import { frameOf } from '../verdict/index.ts';
import { meant, slipFacts, slips, type Point, type SlipFacts } from './slips.ts';
import { SIGNIFICANT } from './last-entry.ts';

export function outside(logged: LogEntry, state: State): Finding[] {
  const { entry } = logged;
  const at = entry.kind === 'marks' && state.system ? station(state.system, entry.station) : undefined;
  if (entry.kind !== 'marks' || !at) return [];
  const radius = at.element.aperture / 2;
  const { read } = lengthsIn(at.units);
  return entry.shots
    .filter((shot) => shot.height === 0)
    .flatMap((shot) =>
      shot.marks.flatMap((mark, k) => {
        const distance = Math.hypot(mark.right ?? 0, mark.up ?? 0);
        if (distance <= radius) return [];
        return [
          findingAt(logged, child(shot.path, k), 'mark.outside', {
            distance: read(distance),
            radius: read(radius),
            ...slipFactsOf(mark, shot, at, state),
          }),
        ];
      }),
    );
}

/** The slip that would explain it: the first that puts it into the aperture, at a place that agrees with the log. */
function slipFactsOf(mark: Mark, shot: Shot, at: Station, state: State): SlipFacts {
  const point = { right: mark.right ?? 0, up: mark.up ?? 0 };
  const estimated = estimate(state);
  const slip = slips(at.units).find((one) => {
    const then = meant(point, one);
    return (
      Math.hypot(then.right, then.up) <= at.element.aperture / 2 &&
      (!estimated || mayBe(then, shot, at, estimated, state))
    );
  });
  const frame = {
    ...frameOf(at),
    ...(slip?.kind === 'unit' && { units: at.units === 'in' ? ('mm' as const) : ('in' as const) }),
  };
  const then = slip && meant(point, slip);
  return slipFacts(slip, then ? markWithUnits(mark.right && then.right, mark.up && then.up, frame) : '');
}

/** Whether a mark is within chance of its prediction. */
function mayBe(
  { right, up }: Point,
  { carriages }: Shot,
  at: Station,
  estimated: Estimate,
  { limits }: State,
): boolean {
  const predicted = predictMark(estimated, queryAt(at, carriagesAt(at, carriages)), NO_MOVE);
  if (!predicted) return true;
  const { resolution, placing } = limits?.reading ?? READING;
  const u = (variance: number) => Math.sqrt(variance + resolution ** 2 / 12 + placing ** 2);
  return (
    Math.abs(right - predicted.right) < SIGNIFICANT * u(predicted.rightVariance) &&
    Math.abs(up - predicted.up) < SIGNIFICANT * u(predicted.upVariance)
  );
}
