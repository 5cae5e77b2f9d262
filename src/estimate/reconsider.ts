/**
 * Assumptions that the workbook does not state: the reading is worse than declared, or a mount is described wrongly. If
 * the marks support one, the filter runs over the segment again with it. A mount is tried only if it explains a
 * response.
 */
import { chiSquareUpper, entry } from '../statistics/index.ts';
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

/** A cause above this probability is assumed. */
const MIN_PROBABILITY = 0.95;
/** A segment with more contradictions than this is not explained by a mount. */
const MOST_SLIPS = 3;
const MOST_TRIED = 2;
/** Log likelihood ratio that another mount must exceed, and that under which two descriptions fit equally. */
const CLEARLY = 3;
const ALIKE = 1;

interface Reconsideration {
  /** The last marks cell, and the machine as described. */
  readonly event: MarksEvent;
  readonly system: System;
  /** The state after the whole segment up to there, under other assumptions. */
  rerun(assumed: Assumption): FilterState;
}

/** Runs the segment again with worse reading or another mount, if the marks support it. */
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

/**
 * Compares descriptions of the mounts.
 * @param failure the response that contradicts the current assumption; absent if the latest response agrees with it
 */
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
  // Of descriptions that fit equally, the first is the most probable slip.
  const most = Math.max(...others.map(({ logDensity }) => logDensity));
  const best = others.find(({ logDensity }) => logDensity >= most - ALIKE);
  if (!best || best.logDensity + ALTERNATIVE < plain.logDensity + WRITTEN + CLEARLY)
    return { ...plain, tried: read.tried + 1 };
  return { ...best, responses: plain.slips - best.slips };
}

function isSameMount(one: Alternative, other: Alternative | undefined): boolean {
  return one.name === other?.name && one.kind === other.kind;
}

/** Fraction of the chi-square of a response that another mount may leave to be worth a run. */
const EXPLAINS = 0.3;

/** Whether the marks of a response are nearer to their prediction by another description of the machine. */
function explains(other: System, { prior, readings, response }: GateFailure): boolean {
  const deviation = innovation(prior, readings);
  if (!deviation) return false;
  const { system } = prior;
  const step = new Float64Array(prior.values.length);
  for (const { part, screw, turns } of response) {
    const order = system.screws.findIndex((one) => one.part === part && one.screw === screw);
    const [written, alternative] = [system.screws[order]?.effect, other.screws[order]?.effect];
    if (!written || !alternative) continue;
    const pose = system.unknowns.pose(system.mirrors.indexOf(system.screws[order]!.mirror));
    step[pose]! += turns * (alternative.piston - written.piston);
    step[pose + 1]! += turns * (alternative.right - written.right);
    step[pose + 2]! += turns * (alternative.up - written.up);
  }
  const then = deviation.residuals.map(
    (off, row) => off - step.reduce((sum, one, k) => sum + one * entry(deviation.jacobian, row, k), 0),
  );
  const size = (residuals: Float64Array) =>
    agreement({ ...deviation, residuals }, innovationCovariance(deviation, 1), { rank: () => 0, rejects: () => false })
      .chiSquare;
  const remaining = size(then);
  return remaining < EXPLAINS * size(deviation.residuals) && chiSquareUpper(remaining, then.length) >= GATE_PROBABILITY;
}
