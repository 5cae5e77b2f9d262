/**
 * A cell that is nothing but a note, as text that people write and read. Only the plain block style is taken apart, line
 * by line: whatever else a note may be written as stays a cell like any other.
 */

const OPENING = /^note: \|(-|\+)?[ \t]*\n/;

/** The note's text; undefined where the cell is more than a note, or written in another style. Line ends are LF. */
export function noteIn(cell: string): string | undefined {
  const [opening, chomping] = OPENING.exec(cell) ?? [];
  if (opening === undefined) return undefined;
  const lines = cell.slice(opening.length).split('\n');
  const isPlain =
    lines.every((line) => line === '' || /^ {2}[\t -\ud7ff\ue000-\ufffd]*$/u.test(line)) &&
    lines.some((line) => line.trim() !== '');
  // The first line says how far all are set in: were it set in further, or blank, the others could not be told from it.
  if (!isPlain || !/^ {2}\S/.test(lines[0]!)) return undefined;
  const text = lines.map((line) => line.slice(2)).join('\n');
  return chomping === '+' ? text : text.replace(/(?<!\n)\n+$/, '');
}

/** The cell that says it, so that it is read again as it is written here. */
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
