/**
 * What is assumed beyond what the workbook says: that the reading is worse than declared, or a mount is described wrongly. Where
 * the marks speak for it the chapter is gone through again so; a mount is tried only where it explains a response.
 */
import { chiSquareUpper } from '../statistics/index.ts';
import type { Account, Assumption, Odd } from './account-types.ts';
import type { Read } from './chapter.ts';
import { agreement, CHANCE, innovation } from './innovation.ts';
import {
  ALTERNATIVE,
  WRITTEN,
  alternatives,
  RESPONSES,
  items,
  type Alternative,
  type System,
} from '../machine/index.ts';
import { covarianceOf, responseTo } from './readings-in.ts';
import { causeOf } from './scatter.ts';

/** Above this probability a cause is taken for true. */
const SURE = 0.95;
/** A log that contradicts itself more often than this in one chapter is not explained by a mount. */
const MOST_SLIPS = 3;
const MOST_TRIED = 2;
/** A response that fits the workbook as badly as this does not speak for another mount alone. */
const CLEARLY = 3;
const ALIKE = 1;

interface Going {
  /** The marks cell that was read last, and the machine as written. */
  readonly what: Read;
  readonly system: System;
  /** The whole chapter up to there under other assumptions. */
  again(assumed: Assumption): Account;
}

/** Whether the reading is worse than declared, or a mount is described wrongly: then the chapter is gone through again so. */
export function reconsidered(sofar: Account, read: Account, { what, system, again }: Going): Account {
  const { noise, worse } = causeOf(read.evidence, read.belief.system);
  const louder =
    worse > SURE && noise > read.noise && read.slips <= MOST_SLIPS
      ? again({ noise, ...(read.mount && { mount: read.mount }) })
      : read;
  const isTold = louder.mount !== undefined && louder.responses >= RESPONSES;
  const last = louder.odd.length > sofar.odd.length ? louder.odd.at(-1)! : undefined;
  const isOdd = last !== undefined && last.response.length > 0;
  const isTried = louder.mount !== undefined && !isTold && responseTo(sofar, what).length > 0;
  if (louder.slips > MOST_SLIPS || louder.tried >= MOST_TRIED || !(isOdd || isTried)) return louder;
  return withMount(louder, system, last, again);
}

/** @param odd the response that contradicts what is assumed; absent where one is compared that does not */
function withMount(read: Account, written: System, odd: Odd | undefined, again: Going['again']): Account {
  const { noise } = read;
  const turned = new Set(items(read.turns).map(({ part }) => part));
  const likely = alternatives(written, turned).filter(
    (mount) => isSameMount(mount, read.mount) || (odd !== undefined && explains(mount.system, odd)),
  );
  if (likely.length === 0) return read;
  const plain = read.mount ? again({ noise }) : read;
  const others = likely.map((mount) => (isSameMount(mount, read.mount) ? read : again({ noise, mount })));
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
function explains(other: System, { prior, readings, response }: Odd): boolean {
  const deviation = innovation(prior, readings);
  if (!deviation) return false;
  const { system: of } = prior;
  const step = new Float64Array(prior.values.length);
  for (const { part, screw, turns } of response) {
    const order = of.screws.findIndex((one) => one.part === part && one.screw === screw);
    const [said, instead] = [of.screws[order]?.effect, other.screws[order]?.effect];
    if (!said || !instead) continue;
    const pose = of.unknowns.pose(of.mirrors.indexOf(of.screws[order]!.mirror));
    step[pose]! += turns * (instead.piston - said.piston);
    step[pose + 1]! += turns * (instead.right - said.right);
    step[pose + 2]! += turns * (instead.up - said.up);
  }
  const then = deviation.offsets.map(
    (off, row) =>
      off - step.reduce((sum, one, k) => sum + one * deviation.jacobian.data[row * deviation.jacobian.columns + k]!, 0),
  );
  const size = (offsets: Float64Array) =>
    agreement({ ...deviation, offsets }, covarianceOf(deviation, 1), { rank: () => 0, isOut: () => false }).chiSquare;
  const left = size(then);
  return left < EXPLAINS * size(deviation.offsets) && chiSquareUpper(left, then.length) >= CHANCE;
}
