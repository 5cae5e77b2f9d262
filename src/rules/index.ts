/** The rules, one file each. A new finding: write its file, add it here, its texts in `shared/log-findings.ts`. */
import type { EntryRule, LatestRule, OutcomeRule } from './rule.ts';
import { bowed } from './bowed.ts';
import { unmoved } from './unmoved.ts';
import { misread } from './misread.ts';
import { loose } from './loose.ts';
import { fineLimits } from './fine-limits.ts';
import { contradicted } from './contradicted.ts';
import { coarseReading } from './coarse-reading.ts';
import { due } from './due.ts';
import { farShift } from './far-shift.ts';
import { height } from './height.ts';
import { hours } from './hours.ts';
import { impossibleBeam } from './impossible-beam.ts';
import { leftOpen } from './left-open.ts';
import { locked } from './locked.ts';
import { measuredOutside, releasedOutside } from './measured-outside.ts';
import { noLimits } from './no-limits.ts';
import { noLocks } from './no-locks.ts';
import { order } from './order.ts';
import { outsideLimits } from './outside-limits.ts';
import { outside } from './outside.ts';
import { overdue } from './overdue.ts';
import { pulse } from './pulse.ts';
import { racking } from './racking.ts';
import { refit } from './refit.ts';
import { sessionMissing } from './session-missing.ts';
import { shape } from './shape.ts';
import { tape } from './tape.ts';
import { unfitRelease } from './unfit-release.ts';
import { unfit } from './unfit.ts';
import { unchecked } from './unchecked.ts';
import { unlocked } from './unlocked.ts';
import { unexpected } from './unexpected.ts';
import { unread } from './unread.ts';
import { unshot } from './unshot.ts';
import { unsigned } from './unsigned.ts';
import { upstream } from './upstream.ts';
import { wideBeam } from './wide-beam.ts';
import { wrongWayRound } from './wrong-way-round.ts';

export const entryRules: readonly EntryRule[] = [
  fineLimits,
  wideBeam,
  impossibleBeam,
  outside,
  farShift,
  shape,
  order,
  hours,
  measuredOutside,
  unread,
  unchecked,
  leftOpen,
  pulse,
  tape,
  upstream,
  locked,
  noLocks,
  unlocked,
  unshot,
  wrongWayRound,
  refit,
  unfitRelease,
  releasedOutside,
  unsigned,
  overdue,
  sessionMissing,
];
export const outcomeRules: readonly OutcomeRule[] = [
  noLimits,
  bowed,
  racking,
  height,
  unexpected,
  misread,
  unmoved,
  loose,
  coarseReading,
  contradicted,
  outsideLimits,
  due,
];
export const latestRules: readonly LatestRule[] = [unfit];
export type { Outcome } from './rule.ts';
