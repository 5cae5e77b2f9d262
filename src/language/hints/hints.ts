/**
 * Inlay hints: one line for each cell, its verdict first; the tooltip has the rest. The hint of a marks cell is its
 * result at that moment, not today.
 */
import { lineEndAt } from '../book/lines.ts';
import type { Book } from '../book/book-type.ts';
import { cellAt, entriesOf } from '../book/entries-of.ts';
import { markHints } from './mark-hints.ts';
import { resultHints } from './result-hints.ts';
import { turnHint } from './turn-hint.ts';
import { verdictHint } from './verdict-hint.ts';
import type { HintKind, Hint, Behind, HintsFor } from './hint.ts';

const MAKERS: readonly (readonly [HintKind, HintsFor])[] = [
  ['verdicts', verdictHint],
  ['marks', markHints],
  ['turns', turnHint],
  ['results', resultHints],
];

/** The hints of the visible span of the file, in file order. */
export function hintsOf(book: Book, from: number, to: number, isOn: (kind: HintKind) => boolean = () => true): Hint[] {
  const makers = MAKERS.filter(([kind]) => isOn(kind));
  const visible = entriesOf(book, Math.max(0, cellAt(book, from)), cellAt(book, to) + 1);
  const hints = visible.flatMap((logged) =>
    makers.flatMap(([kind, make]) => make(book, logged).map((hint) => placed(book, logged.cell, kind, hint))),
  );
  return hints.filter(({ at }) => from <= at && at <= to).sort((one, other) => one.at - other.at);
}

function placed({ split, text }: Book, cell: number, kind: HintKind, { span, label, tooltip, inLine }: Behind): Hint {
  const end = split.cells[cell]!.start + span.end;
  return { kind, at: inLine ? end : lineEndAt(text, end), label, tooltip };
}
