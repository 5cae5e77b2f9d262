/** Every kind of cell, by its word. */
import type { Kind } from '../../model/index.ts';
import { adjust } from './adjust.ts';
import { care } from './care.ts';
import { checks } from './checks.ts';
import { event } from './event.ts';
import type { CellKind } from './kind.ts';
import { limits } from './limits.ts';
import { machine } from './machine.ts';
import { marks } from './marks.ts';
import { measure } from './measure.ts';
import { note } from './note.ts';
import { power } from './power.ts';
import { release } from './release.ts';
import { session } from './session.ts';
import { work } from './work.ts';

export { isLogName, LOG_NAMES, WIDTH_ON } from './log-names.ts';
export { machineValues } from './machine-values.ts';
export { namesIn, uncertainty, computeWork, type Known, type ComputedWork } from './compute-work.ts';
export { aside, checkAmended } from './aside.ts';
export { ASIDE, common, type Common } from './common.ts';
export type { Cell, CellKind, Meaning, Report, ReportedFacts, Subject, Threads } from './kind.ts';

const BY_WORD: { readonly [K in Kind]: CellKind<K> } = {
  machine,
  limits,
  session,
  marks,
  adjust,
  care,
  power,
  measure,
  event,
  checks,
  note,
  work,
  release,
};

/** By any kind: the caller passes a value or an entry of a kind to the functions of the same kind. */
export const CELL_KINDS: Readonly<Record<Kind, CellKind>> = BY_WORD;
