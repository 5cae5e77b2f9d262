/** What the tool still says about the workbook, and what it was told not to say. */
import type { Book } from '../language/index.ts';
import { message, severity, type Finding } from '../model/index.ts';
import { table, type Block } from './blocks.ts';

export function openPoints(book: Book): Block[] {
  const found = book.findings().map((finding) => [lineOf(book, finding), severity(finding), message(finding)]);
  return found.length === 0 ? [{ kind: 'text', text: 'None.' }] : table(['line', '', 'what'], found);
}

export function rulesOff({ workbook }: Book): Block[] {
  const rules = Object.entries(workbook.limits?.limits.rules ?? {}).map(([code, { off }]) => [code, 'the whole workbook', off]);
  const silenced = workbook.remarks.flatMap(({ said }) => {
    const found = /^allow\s+([\w.]+)\s*:\s*(\S.*)$/.exec(said);
    return found ? [[found[1]!, 'one place', found[2]!]] : [];
  });
  const rows = [...rules, ...silenced];
  return rows.length === 0 ? [{ kind: 'text', text: 'None.' }] : table(['rule', 'where', 'reason'], rows);
}

/** From 1. */
function lineOf({ text, split }: Book, { cell, span }: Finding): string {
  return String(text.slice(0, (split.cells[cell]?.start ?? 0) + span.start).split('\n').length);
}
