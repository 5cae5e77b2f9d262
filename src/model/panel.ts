/** The messages between the panel and the extension. Both ends check what they receive. */
import type { PanelView, PanelOptions, TriedTurn } from './panel-view.ts';
import type { TextPlace } from './figures.ts';
import { isPath } from './path.ts';
import type { ClosingSheet } from './practice-view.ts';
import type { PlacedMark } from './requests.ts';

/** A message from the panel's page to the extension. */
export type FromPanel =
  /** The page is ready; the request is about the workbook `of`, if the page remembers one. */
  | ({ readonly type: 'ask'; readonly of?: string | undefined } & PanelOptions)
  /** Select a mark in the text; `quietly`, the page keeps the focus. */
  | ({ readonly type: 'select'; readonly quietly?: true } & TextPlace)
  | ({ readonly type: 'place' } & PlacedMark)
  /** Log these checks, by their index, as done. */
  | { readonly type: 'addChecks'; readonly done: readonly number[] }
  /** Log the advised step, or near an even chance one of the two ways. */
  | { readonly type: 'addStep'; readonly way?: 0 | 1 | undefined }
  /** Log the tried turns. */
  | { readonly type: 'addTried' }
  /** Fire for a blank of a practice machine; first write what is expected, unless that is empty. */
  | ({ readonly type: 'fire'; readonly expected: string } & TextPlace)
  /** Append blanks for the station that is shown; ask for advice; ask for the closing sheet. */
  | { readonly type: 'shoot' | 'askAdvice' | 'closing' }
  /** Practise on another machine of this level. */
  | { readonly type: 'practise'; readonly level: number };

/** A message from the extension to the panel's page. */
export type ToPanel =
  | { readonly type: 'sheet'; readonly uri: string; readonly file: string; readonly sheet: PanelView | null }
  | { readonly type: 'closing'; readonly closing: ClosingSheet }
  /** The mark at the cursor, if any. */
  | { readonly type: 'selected'; readonly mark: TextPlace | null };

/** Whether a message has the shape of `FromPanel`. */
export function isFromPanel(message: unknown): message is FromPanel {
  if (!isRecord(message)) return false;
  switch (message['type']) {
    case 'ask':
      return (
        isOptional(message['of'], 'string') &&
        isOptional(message['station'], 'string') &&
        isOptional(message['round'], 'number') &&
        isOptional(message['visits'], 'boolean') &&
        (message['fired'] === undefined || (isRecord(message['fired']) && isPlace(message['fired']))) &&
        areTurns(message['turns']) &&
        areLegs(message['legs'])
      );
    case 'select':
      return isPlace(message);
    case 'place':
      return isPlace(message) && Number.isFinite(message['right']) && Number.isFinite(message['up']);
    case 'addChecks':
      return Array.isArray(message['done']) && message['done'].every(Number.isSafeInteger);
    case 'fire':
      return isPlace(message) && typeof message['expected'] === 'string';
    case 'practise':
      return Number.isSafeInteger(message['level']);
    case 'addStep':
      return message['way'] === undefined || message['way'] === 0 || message['way'] === 1;
    case 'addTried':
    case 'shoot':
    case 'askAdvice':
    case 'closing':
      return true;
    default:
      return false;
  }
}

function isPlace({ cell, path }: Readonly<Record<string, unknown>>): boolean {
  return Number.isSafeInteger(cell) && isPath(path);
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
export function isToPanel(message: unknown): message is ToPanel {
  if (!isRecord(message)) return false;
  if (message['type'] === 'selected')
    return message['mark'] === null || (isRecord(message['mark']) && isPlace(message['mark']));
  if (message['type'] === 'closing') return isRecord(message['closing']);
  return (
    message['type'] === 'sheet' &&
    typeof message['uri'] === 'string' &&
    typeof message['file'] === 'string' &&
    (message['sheet'] === null || isRecord(message['sheet']))
  );
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null;
}

function isOptional(value: unknown, type: 'string' | 'number' | 'boolean'): boolean {
  return value === undefined || typeof value === type;
}
