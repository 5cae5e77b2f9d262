/**
 * Values beside the text: one line of meaning for a cell, its verdict first; the rest stands in the tooltip. What a
 * marks cell meant is told as of its own moment, not of today.
 */
import { lineEndAt } from '../book/lines.ts';
import type { Book } from '../book/book-type.ts';
import { cellAt, entriesOf } from '../book/entries-of.ts';
import { markHints } from './mark-hints.ts';
import { resultHints } from './result-hints.ts';
import { stepHint } from './step-hint.ts';
import { turnHint } from './turn-hint.ts';
import { verdictHint } from './verdict-hint.ts';
import type { HintKind, Hint, Behind, HintsFor } from './hint.ts';

const MAKERS: readonly (readonly [HintKind, HintsFor])[] = [
  ['verdicts', verdictHint],
  ['marks', markHints],
  ['turns', turnHint],
  ['results', resultHints],
  ['steps', stepHint],
];

/** Of the stretch of the file that somebody looks at, in file order. */
export function hintsOf(book: Book, from: number, to: number, isOn: (kind: HintKind) => boolean = () => true): Hint[] {
  const makers = MAKERS.filter(([kind]) => isOn(kind));
  const seen = entriesOf(book, Math.max(0, cellAt(book, from)), cellAt(book, to) + 1);
  const hints = seen.flatMap((standing) =>
    makers.flatMap(([kind, make]) => make(book, standing).map((hint) => placed(book, standing.cell, kind, hint))),
  );
  return hints.filter(({ at }) => from <= at && at <= to).sort((one, other) => one.at - other.at);
}

function placed({ split, text }: Book, cell: number, kind: HintKind, { span, label, tooltip, inLine }: Behind): Hint {
  const end = split.cells[cell]!.start + span.end;
  return { kind, at: inLine ? end : lineEndAt(text, end), label, tooltip };
}
