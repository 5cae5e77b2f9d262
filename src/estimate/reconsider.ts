/**
 * What is assumed beyond what the workbook says: that the reading is worse than declared, or a mount is described wrongly. Where
 * the marks speak for it the chapter is gone through again so; a mount is tried only where it explains a response.
 */
import { chiSquareUpper } from '../statistics/index.ts';
import type { FilterState, Assumption, GateFailure } from './filter-state.ts';
import type { MarksEvent } from './segment.ts';
import { agreement, GATE_PROBABILITY, innovation } from './innovation.ts';
import {
  ALTERNATIVE,
  WRITTEN,
  alternatives,
  RESPONSES,
  items,
  type Alternative,
  type System,
} from '../machine/index.ts';
import { innovationCovariance, responseTo } from './filter-step.ts';
import { likelyCause } from './scatter.ts';

/** Above this probability a cause is taken for true. */
const MIN_PROBABILITY = 0.95;
/** A log that contradicts itself more often than this in one chapter is not explained by a mount. */
const MOST_SLIPS = 3;
const MOST_TRIED = 2;
/** A response that fits the workbook as badly as this does not speak for another mount alone. */
const CLEARLY = 3;
const ALIKE = 1;

interface Reconsideration {
  /** The marks cell that was read last, and the machine as written. */
  readonly event: MarksEvent;
  readonly system: System;
  /** The whole chapter up to there under other assumptions. */
  rerun(assumed: Assumption): FilterState;
}

/** Whether the reading is worse than declared, or a mount is described wrongly: then the chapter is gone through again so. */
export function reconsider(
  sofar: FilterState,
  read: FilterState,
  { event, system, rerun }: Reconsideration,
): FilterState {
  const { noise, worse } = likelyCause(read.evidence, read.distribution.system);
  const rescaled =
    worse > MIN_PROBABILITY && noise > read.noise && read.slips <= MOST_SLIPS
      ? rerun({ noise, ...(read.mount && { mount: read.mount }) })
      : read;
  const isReported = rescaled.mount !== undefined && rescaled.responses >= RESPONSES;
  const last =
    rescaled.contradictions.length > sofar.contradictions.length ? rescaled.contradictions.at(-1)! : undefined;
  const contradictsTurns = last !== undefined && last.response.length > 0;
  const isTried = rescaled.mount !== undefined && !isReported && responseTo(sofar, event).length > 0;
  if (rescaled.slips > MOST_SLIPS || rescaled.tried >= MOST_TRIED || !(contradictsTurns || isTried)) return rescaled;
  return withMount(rescaled, system, last, rerun);
}

/** @param failure the response that contradicts what is assumed; absent where one is compared that does not */
function withMount(
  read: FilterState,
  written: System,
  failure: GateFailure | undefined,
  rerun: Reconsideration['rerun'],
): FilterState {
  const { noise } = read;
  const turned = new Set(items(read.turns).map(({ part }) => part));
  const likely = alternatives(written, turned).filter(
    (mount) => isSameMount(mount, read.mount) || (failure !== undefined && explains(mount.system, failure)),
  );
  if (likely.length === 0) return read;
  const plain = read.mount ? rerun({ noise }) : read;
  const others = likely.map((mount) => (isSameMount(mount, read.mount) ? read : rerun({ noise, mount })));
  // Of descriptions that fit alike the first, which is the likeliest slip.
  const most = Math.max(...others.map(({ logDensity }) => logDensity));
  const best = others.find(({ logDensity }) => logDensity >= most - ALIKE);
  if (!best || best.logDensity + ALTERNATIVE < plain.logDensity + WRITTEN + CLEARLY)
    return { ...plain, tried: read.tried + 1 };
  return { ...best, responses: plain.slips - best.slips };
}

function isSameMount(one: Alternative, other: Alternative | undefined): boolean {
  return one.name === other?.name && one.kind === other.kind;
}

/** What must be left of the chi-square of an odd response for another mount to be worth a closer look. */
const EXPLAINS = 0.3;

/** Whether the marks of a response lie nearer to where they would be if the screws did what another machine says. */
function explains(other: System, { prior, readings, response }: GateFailure): boolean {
  const deviation = innovation(prior, readings);
  if (!deviation) return false;
  const { system: of } = prior;
  const step = new Float64Array(prior.values.length);
  for (const { part, screw, turns } of response) {
    const order = of.screws.findIndex((one) => one.part === part && one.screw === screw);
    const [written, alternative] = [of.screws[order]?.effect, other.screws[order]?.effect];
    if (!written || !alternative) continue;
    const pose = of.unknowns.pose(of.mirrors.indexOf(of.screws[order]!.mirror));
    step[pose]! += turns * (alternative.piston - written.piston);
    step[pose + 1]! += turns * (alternative.right - written.right);
    step[pose + 2]! += turns * (alternative.up - written.up);
  }
  const then = deviation.residuals.map(
    (off, row) =>
      off - step.reduce((sum, one, k) => sum + one * deviation.jacobian.data[row * deviation.jacobian.columns + k]!, 0),
  );
  const size = (residuals: Float64Array) =>
    agreement({ ...deviation, residuals }, innovationCovariance(deviation, 1), { rank: () => 0, rejects: () => false })
      .chiSquare;
  const remaining = size(then);
  return remaining < EXPLAINS * size(deviation.residuals) && chiSquareUpper(remaining, then.length) >= GATE_PROBABILITY;
}
