/** The rules, one file each. A new finding: write its file, add it here, its words in `shared/findings.ts`. */
import type { EntryRule, OutcomeRule } from './rule.ts';
import { bowed } from './bowed.ts';
import { due } from './due.ts';
import { height } from './height.ts';
import { leftOpen } from './left-open.ts';
import { locked } from './locked.ts';
import { noLimits } from './no-limits.ts';
import { order } from './order.ts';
import { outsideLimits } from './outside-limits.ts';
import { outside } from './outside.ts';
import { overdue } from './overdue.ts';
import { pulse } from './pulse.ts';
import { racking } from './racking.ts';
import { refit } from './refit.ts';
import { tape } from './tape.ts';
import { unchecked } from './unchecked.ts';
import { unlocked } from './unlocked.ts';
import { unexpected } from './unexpected.ts';
import { unread } from './unread.ts';
import { unshot } from './unshot.ts';
import { unsigned } from './unsigned.ts';
import { upstream } from './upstream.ts';
import { wideBeam } from './wide-beam.ts';

export const entryRules: readonly EntryRule[] = [wideBeam, outside, order, unread, unchecked, leftOpen, pulse, tape, upstream, locked, unlocked, unshot, refit, unsigned, overdue];
export const outcomeRules: readonly OutcomeRule[] = [noLimits, bowed, racking, height, unexpected, outsideLimits, due];
