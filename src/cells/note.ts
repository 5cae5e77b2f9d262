/**
 * A cell that contains only a note, as plain text. Only the plain block style is converted: a note in any other YAML
 * style stays an ordinary cell.
 */

const OPENING = /^note: \|(-|\+)?[ \t]*\n/;

/** The note's text; undefined if the cell has other keys, or another style. Line ends are LF. */
export function noteIn(cell: string): string | undefined {
  const [opening, chomping] = OPENING.exec(cell) ?? [];
  if (opening === undefined) return undefined;
  const lines = cell.slice(opening.length).split('\n');
  const isPlain =
    lines.every((line) => line === '' || /^ {2}[\t -\ud7ff\ue000-\ufffd]*$/u.test(line)) &&
    lines.some((line) => line.trim() !== '');
  // The first line sets the indentation of all: if it were indented further, or blank, theirs would be ambiguous.
  if (!isPlain || !/^ {2}\S/.test(lines[0]!)) return undefined;
  const text = lines.map((line) => line.slice(2)).join('\n');
  return chomping === '+' ? text : text.replace(/(?<!\n)\n+$/, '');
}

/** The cell for a note, which reads back as the same text. */
export function noteCell(text: string): string {
  if (
    !/^[\t\n -\u007e\u0085\u00a0-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]*$/u.test(text) ||
    /(?:^|\n)[ \t]+$|^\s*$/.test(text)
  )
    return `note: ${JSON.stringify(text)}`;
  const [first] = text.split('\n');
  const setIn = /^[ \t]|^$/.test(first!) ? '2' : '';
  const chomping = text.endsWith('\n') ? '+' : '-';
  return `note: |${setIn}${chomping}\n${text
    .split('\n')
    .map((line) => (line === '' ? '' : `  ${line}`))
    .join('\n')}`;
}
