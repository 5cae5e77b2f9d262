/**
 * Expectations inside the text, legal in the language: under a line, `#   ^^^ code` says that a finding covers these
 * characters of it. `#<--- code` covers as many from the line's start, `#  | code` none, before this character.
 * Marker lines are taken out before the text is read.
 */
import type { Finding } from '../../src/model/index.ts';
import type { Workbook } from '../../src/workbook/index.ts';

const MARKER = /^#(?:<(-*)|( *)(\^+|\|)) ([\w.]+)$/;

export interface Marked {
  readonly text: string;
  /** `LINE:START-END code`, 0-based in `text`. */
  readonly expected: readonly string[];
}

export function readMarkers(marked: string): Marked {
  const lines: string[] = [];
  const expected: string[] = [];
  for (const line of marked.split('\n')) {
    const [whole, dashes, blanks, carets, code] = MARKER.exec(line) ?? [];
    if (whole === undefined) lines.push(line);
    else {
      const start = dashes === undefined ? 1 + blanks!.length : 0;
      const width = dashes?.length ?? (carets === '|' ? 0 : carets!.length);
      expected.push(`${lines.length - 1}:${start}-${start + width} ${code}`);
    }
  }
  return { text: lines.join('\n'), expected };
}

/** Where a finding stands, as far as it is on its first line, in the form of an expectation. */
export function place({ split }: Pick<Workbook, 'split'>, { cell, span, code }: Finding): string {
  const file = split.head + split.cells.map(({ text }) => text).join('') + split.tail;
  const from = (split.cells[cell]?.start ?? 0) + span.start;
  const before = file.slice(0, from).split('\n');
  const column = before.at(-1)!.length;
  const rest = file.slice(from, from + span.end - span.start).split('\n', 1)[0]!;
  return `${before.length - 1}:${column}-${column + rest.length} ${code}`;
}

/** The text with a marker line for each of these places. */
export function writeMarkers(text: string, places: readonly string[]): string {
  return text
    .split('\n')
    .flatMap((line, i) => [line, ...places.filter((at) => at.startsWith(`${i}:`)).map(markerLine)])
    .join('\n');
}

function markerLine(at: string): string {
  const [, start, end, code] = /:(\d+)-(\d+) (.*)$/.exec(at)!;
  const width = Number(end) - Number(start);
  if (start === '0') return `#<${'-'.repeat(width)} ${code}`;
  return `#${' '.repeat(Number(start) - 1)}${width === 0 ? '|' : '^'.repeat(width)} ${code}`;
}
