/**
 * The steps while marks are in doubt: nothing is turned or shifted, and the cheapest test comes first. A loose part is
 * tightened; marks that scatter are repeated at their place; a turn without effect is checked by hand; an unexplained
 * mark is shot again on fresh tape.
 */
import { lengthsIn, type ShotRequest, type Step } from '../model/index.ts';
import {
  TOO_OFTEN,
  estimateOf,
  predict,
  type GateFailure,
  type Doubts,
  type Scattering,
  type LoggedReading,
} from '../estimate/index.ts';
import {
  fixOf,
  RESPONSES,
  whatIsWrong,
  NO_MOVE,
  TUBE,
  placesNeeded,
  sameCarriages,
  type Station,
  type System,
} from '../machine/index.ts';
import { markInWords, screwInWords, bracketed, listed, nameInCell, placeInWords } from '../words/index.ts';
import { carriagesOf, frameOf } from '../verdict/index.ts';
import { requestAt, shoot } from './shooting.ts';
import { repairStep } from './steps.ts';

export interface DoubtSteps {
  readonly verdict: 'continue' | 'blocked';
  readonly steps: readonly Step[];
}

/**
 * A single response that contradicts the machine cell may be a wrong turn; both causes are named, and the next turn
 * distinguishes them.
 */
export function mountInWords({ mount }: Doubts): string | undefined {
  if (!mount) return undefined;
  if (mount.responses >= RESPONSES)
    return `The description of mount ${mount.name} is wrong: ${whatIsWrong(mount)}. This turn already allows for that. Write ${fixOf(mount)} in the machine cell.`;
  return `After the last turn of mount ${mount.name} the marks did not move as the log predicts: either that turn was made or logged the wrong way, or ${whatIsWrong(mount)} (then write ${fixOf(mount)} in the machine cell). A small turn shows which.`;
}

/** Undefined if nothing is in doubt. */
export function resolveDoubts(system: System, { scattering, unmoved, unexplained }: Doubts): DoubtSteps | undefined {
  if (scattering)
    return scattering.loose === undefined
      ? { verdict: 'continue', steps: [repeat(system, scattering)] }
      : { verdict: 'blocked', steps: [tighten(system, scattering, scattering.loose)] };
  if (unmoved)
    return unmoved.times < TOO_OFTEN
      ? { verdict: 'continue', steps: checkTurn(system, unmoved) }
      : { verdict: 'blocked', steps: [freeMount(system, unmoved)] };
  const [first] = unexplained;
  return first && { verdict: 'continue', steps: [again(system, first)] };
}

function stationOf({ stations }: System, { station }: LoggedReading): Station {
  return stations[station]!;
}

/** ` (gantry far from M1, front)`; empty if no carriage moves the tape. */
export function whereIn(station: Station, { at, with: others }: Pick<LoggedReading, 'at' | 'with'>): string {
  return bracketed(placeInWords(carriagesOf(station), at, others));
}

function requestFor({ at, with: others, height }: LoggedReading): ShotRequest {
  return { at, ...(Object.keys(others).length > 0 && { with: others }), ...(height > 0 && { height }) };
}

/** Distance of two marks of one place, mm; for several marks of one shot, √2 times their standard deviation. */
export function scatterDistance({ discrepancy: { earlier: one, later: other } }: Scattering): number {
  if (one === other && one.scatter)
    return Math.sqrt((2 * (one.scatter.right + one.scatter.up)) / (one.scatter.count - 1));
  return Math.hypot((one.right ?? 0) - (other.right ?? 0), (one.up ?? 0) - (other.up ?? 0));
}

/** The distance, with the part that reading explains (95 %). */
function scatterInWords(system: System, scattering: Scattering): string {
  const {
    discrepancy: { earlier: reading, later: other },
  } = scattering;
  const station = stationOf(system, reading);
  const distance = scatterDistance(scattering);
  const u = reading === other ? reading.scatter!.u : Math.hypot(reading.u, other.u) / Math.SQRT2;
  const { read } = lengthsIn(station.units);
  return `Repeated marks on ${station.name}${whereIn(station, reading)} are ${read(distance)} apart although nothing was moved between them; reading explains ${read(READING_95 * u)}`;
}

/** 95 % quantile of the distance between two marks, in standard uncertainties of one coordinate: √2 · √5.99. */
const READING_95 = 3.46;

/**
 * Number of repeats that distinguish a loose part from a misread mark: fewer leave too many loose parts undecided
 * (`bench:converge --world loose`).
 */
const REPEATS = 6;

function repeat(system: System, scattering: Scattering): Step {
  const {
    discrepancy: { later: other },
    farthest,
  } = scattering;
  const station = stationOf(system, other);
  const isSamePlace = sameCarriages(farthest.carriages, other.carriages);
  const where = isSamePlace
    ? 'more shots of the same place'
    : `shots${whereIn(station, farthest)}, where a loose part shows most,`;
  const why = `${scatterInWords(system, scattering)}. Six ${where} show whether a part is loose or one mark was misread. Do not move anything. Use a fresh, numbered tape for each shot.`;
  // Near the mirror a loose mirror has little effect; a bad reading has the same.
  const nearest = isSamePlace ? placesNeeded(station)[0] : undefined;
  const beside = !isSamePlace
    ? [requestFor(other)]
    : nearest && !sameCarriages(nearest.carriages, other.carriages)
      ? [requestAt(nearest)]
      : [];
  return shoot(station, [...beside, ...Array.from({ length: REPEATS }, () => requestFor(farthest))], why);
}

/** `M1`, `the tube or M1`. */
export function looseInWords(parts: readonly string[]): string {
  return parts.map((part) => (part === TUBE ? 'the tube' : part)).join(' or ');
}

function holdOf(part: string): string {
  return part === TUBE
    ? 'the tube in its holders, and of the block of the first mirror'
    : `${part}: its mirror in the mount, the mount on its block, the block on the frame or carriage`;
}

function tighten(system: System, scattering: Scattering, parts: readonly string[]): Step {
  const what = looseInWords(parts);
  const say = `Something is loose at ${what}. Do not shoot or turn anything. Take hold of ${parts.map(holdOf).join('; of ')}. Find what moves, tighten it, and log it.`;
  const cell = `care: ${nameInCell(parts[0]!)}\nfound: loose\ndid: tightened\n`;
  return {
    ...repairStep(
      say,
      `The same tape gives different answers. ${scatterInWords(system, scattering)}. The scatter appears only after ${what}.`,
    ),
    cell,
  };
}

function checkTurn(system: System, { turns, failure }: NonNullable<Doubts['unmoved']>): Step[] {
  const station = stationOf(system, failure.readings[0]!);
  const screws = listed(turns.map(({ part, screw }) => `${screwInWords(system, part, screw)} of ${part}`));
  const parts = listed([...new Set(turns.map(({ part }) => part))]);
  const why = `The turn of ${screws} had no effect: the marks on ${station.name} did not move.`;
  const items = [
    `the lock nuts of ${parts} are loose`,
    `the turned screw is on ${parts}, and it is the one that the log names`,
    'the screw does not turn freely: mark its knob with a pen, turn 1/4, and see that the plate moves; then turn it back',
  ];
  const check: Step = {
    kind: 'check',
    items,
    say: `Check by hand: ${items.join('; ')}.`,
    why,
    cell: `checks: a turn without effect\ndone:\n${items.map((item) => `  - ${JSON.stringify(item)}\n`).join('')}`,
  };
  return [
    check,
    shoot(station, [requestFor(failure.readings.at(-1)!)], 'Then shoot again before you turn anything else.'),
  ];
}

function freeMount(system: System, { turns, failure, times }: NonNullable<Doubts['unmoved']>): Step {
  const station = stationOf(system, failure.readings[0]!);
  const parts = listed([...new Set(turns.map(({ part }) => part))]);
  const say = `Turns of ${parts} had no effect ${times} times. Do not turn further: a plate that sticks can let go suddenly. Turn the screws back by the logged amounts, loosen the lock nuts, and see whether the plate follows each screw and the springs pull it. Free or repair the mount. Log what you find, then shoot ${station.name} again.`;
  return repairStep(say, `The marks on ${station.name} did not move.`);
}

function again(system: System, failure: GateFailure): Step {
  const worst = mostDeviating(failure);
  const station = stationOf(system, worst);
  const predicted = worst.height > 0 ? undefined : predict(estimateOf(failure.before), [worst], NO_MOVE)?.mean;
  const expected = predicted
    ? ` Predicted from the rest of the log: ${markInWords(predicted[0], predicted[1], frameOf(station))}.`
    : '';
  const what =
    worst.height > 0
      ? `The marks on the bed below ${station.name}${whereIn(station, worst)} are`
      : `The mark on ${station.name}${whereIn(station, worst)} is`;
  const why = `${what} unexplained.${expected} Shoot it again on fresh, labelled tape before you turn or shift anything.`;
  const shots =
    worst.height > 0 ? failure.readings.filter(({ height }) => height > 0).map(requestFor) : [requestFor(worst)];
  return shoot(station, shots, why);
}

/** The reading with the largest deviation from its prediction. */
function mostDeviating({ before, readings }: GateFailure): LoggedReading {
  const off = (reading: LoggedReading) => {
    const mean = reading.height > 0 ? undefined : predict(estimateOf(before), [reading], NO_MOVE)?.mean;
    return mean ? Math.hypot((reading.right ?? mean[0]!) - mean[0]!, (reading.up ?? mean[1]!) - mean[1]!) : 0;
  };
  return readings.reduce((most, one) => (off(one) > off(most) ? one : most));
}
