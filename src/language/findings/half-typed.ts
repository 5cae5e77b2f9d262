/**
 * Hides findings that exist only because a word is not finished while it is being typed. The caller shows them when the
 * cursor has moved on, when the file is saved, or after a pause.
 */
import type { Finding } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';

/** Offset in the file after the last character that was typed. */
export interface Typed {
  readonly at: number;
}

/** Words, numbers and the characters between their parts: `in 1/` counts as one word. */
const BETWEEN = /[^\S\r\n]|[\w.%/+*()"'-]/;

/** The findings without those about the word that is being typed. */
export function withoutHalfTyped(
  { split, text }: Book,
  findings: readonly Finding[],
  typed: Typed | undefined,
): readonly Finding[] {
  if (typed === undefined) return findings;
  const [from, to] = wordAround(text, typed.at);
  const cell = split.cells.findIndex(({ start, text: of }) => start <= typed.at && typed.at <= start + of.length);
  return findings.filter((finding) => {
    const start = (split.cells[finding.cell]?.start ?? 0) + finding.span.start;
    const end = start + finding.span.end - finding.span.start;
    if (finding.code === 'yaml.syntax') return !near(split.cells[finding.cell]?.start, split.cells[cell]?.start);
    if (CONSEQUENCES.has(finding.code) && finding.cell === cell) return false;
    return end < from || start > to;
  });
}

/** Findings of a cell that follow from a value with an error. */
const CONSEQUENCES: ReadonlySet<string> = new Set(['log.unread', 'cell.missing', 'cell.kind']);

/** An unfinished quote or bracket makes its whole cell invalid YAML. */
function near(one: number | undefined, other: number | undefined): boolean {
  return one !== undefined && one === other;
}

function wordAround(text: string, at: number): [from: number, to: number] {
  let [from, to] = [at, at];
  while (from > 0 && BETWEEN.test(text[from - 1]!)) from--;
  while (to < text.length && BETWEEN.test(text[to]!)) to++;
  return [from, to];
}
