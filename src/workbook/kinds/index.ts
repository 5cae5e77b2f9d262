/** Every kind of cell, by the word that begins it. */
import type { Kind } from '../../model/index.ts';
import { adjust } from './adjust.ts';
import { care, power } from './care.ts';
import type { CellKind } from './kind.ts';
import { limits } from './limits.ts';
import { machine } from './machine.ts';
import { marks } from './marks.ts';
import { checks, event, note, release, session } from './visit.ts';
import { work } from './work.ts';

export { KINDS, KIND_WORDS } from './words.ts';
export { foundIn } from './care.ts';
export { isLogName, LOG_NAMES, WIDTH_ON } from './log-names.ts';
export { machineValues } from './machine-values.ts';
export { namesIn, uncertainty, workedOut, type Known, type WorkedOut } from './worked-out.ts';
export type { Cell, CellKind, Meaning, Report, Threads } from './kind.ts';

export const CELL_KINDS: Readonly<Record<Kind, CellKind>> = {
  machine,
  limits,
  session,
  marks,
  adjust,
  care,
  power,
  event,
  checks,
  note,
  work,
  release,
};
