/** What the panel and the editor's extension say to each other, and whether somebody said it: both ends check what comes. */
import type { Sheet, SheetAsked, TriedTurn } from './sheet.ts';
import type { Axes } from './axes.ts';
import type { TextPlace } from './figures.ts';

export type FromPanel =
  /** It can show something now; what it asks is about the workbook `of`, where it remembers one. */
  | ({ readonly type: 'ask'; readonly of?: string | undefined } & SheetAsked)
  | ({ readonly type: 'select' } & TextPlace)
  | ({ readonly type: 'place' } & TextPlace & Axes)
  /** The advised step is to be written down. */
  | { readonly type: 'addStep' }
  /** The tried turns are. */
  | { readonly type: 'addTried' };

export type ToPanel =
  | { readonly type: 'sheet'; readonly uri: string; readonly file: string; readonly sheet: Sheet | null }
  /** The cursor is at a mark, or at none. */
  | { readonly type: 'selected'; readonly mark: TextPlace | null };

export function isFromPanel(said: unknown): said is FromPanel {
  if (!isRecord(said)) return false;
  const isPlace = Number.isSafeInteger(said['cell']) && typeof said['path'] === 'string';
  switch (said['type']) {
    case 'ask':
      return (
        isOptional(said['of'], 'string') &&
        isOptional(said['station'], 'string') &&
        isOptional(said['round'], 'number') &&
        isOptional(said['visits'], 'boolean') &&
        areTurns(said['turns']) &&
        areLegs(said['legs'])
      );
    case 'select':
      return isPlace;
    case 'place':
      return isPlace && Number.isFinite(said['right']) && Number.isFinite(said['up']);
    case 'addStep':
    case 'addTried':
      return true;
    default:
      return false;
  }
}

function areTurns(turns: unknown): boolean {
  return turns === undefined || (Array.isArray(turns) && turns.every(isTried));
}

function areLegs(legs: unknown): boolean {
  return legs === undefined || (isRecord(legs) && Object.values(legs).every(Number.isFinite));
}

function isTried(turn: unknown): turn is TriedTurn {
  return (
    isRecord(turn) &&
    typeof turn['part'] === 'string' &&
    typeof turn['screw'] === 'string' &&
    Number.isFinite(turn['turns'])
  );
}

/** The editor may send messages of its own into a page. */
export function isToPanel(said: unknown): said is ToPanel {
  if (!isRecord(said)) return false;
  if (said['type'] === 'selected') return said['mark'] === null || isRecord(said['mark']);
  return (
    said['type'] === 'sheet' &&
    typeof said['uri'] === 'string' &&
    typeof said['file'] === 'string' &&
    (said['sheet'] === null || isRecord(said['sheet']))
  );
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null;
}

function isOptional(value: unknown, type: 'string' | 'number' | 'boolean'): boolean {
  return value === undefined || typeof value === type;
}
