/**
 * The place below a notebook's cell in which its view is drawn, and the messages between the extension and the renderer
 * about it.
 */
import type { CellView } from './cell-view.ts';

/** The MIME type of the output that our renderer draws. */
export const SHEET = 'application/vnd.alignbook.sheet+json';

/** The place for one view. */
export interface Sheet {
  readonly key: string;
  /** Pixels that are kept for the view until it arrives, so that nothing below it moves. */
  readonly height: number;
}

/** Whether an output that the editor kept is such a place. */
export function isSheet(value: unknown): value is Sheet {
  return (
    typeof value === 'object' && value !== null && 'key' in value && typeof value.key === 'string' && 'height' in value
  );
}

/** The renderer asks for a view that it does not have. */
export interface FromSheets {
  readonly key: string;
}

/** Views by key; null where there is nothing to show. */
export type ToSheets = Readonly<Record<string, CellView | null>>;

/** Pixels, by the kind of the cell; nothing is shown below the others. */
const HEIGHTS = { marks: 248, adjust: 148, care: 26, machine: 330 } as const;

/** Undefined for a kind without a view, or without a kind; a lock nut alone moves nothing and has none either. */
export function sheetHeight(text: string): number | undefined {
  const kind = /^(marks|adjust|care|machine):/m.exec(text)?.[1] as keyof typeof HEIGHTS | undefined;
  if (!kind || (kind === 'adjust' && !/^(?:turn|shift):/m.test(text))) return undefined;
  return HEIGHTS[kind];
}
