/** The rules, one file each. A new finding: write its file, add it here, its words in `shared/findings.ts`. */
import type { EntryRule, OutcomeRule } from './rule.ts';
import { bowed } from './bowed.ts';
import { height } from './height.ts';
import { noLimits } from './no-limits.ts';
import { order } from './order.ts';
import { outside } from './outside.ts';
import { racking } from './racking.ts';
import { unread } from './unread.ts';

export const entryRules: readonly EntryRule[] = [outside, order, unread];
export const outcomeRules: readonly OutcomeRule[] = [noLimits, bowed, racking, height];
