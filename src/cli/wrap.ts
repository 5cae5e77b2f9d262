/** Text for a terminal of 80 columns. */

const COLUMNS = 79;

/** Words filled into lines; the first begins with `lead`, the others are indented as far. */
export function wrapped(text: string, lead = ''): string[] {
  const indent = ' '.repeat(lead.length);
  const lines: string[] = [];
  let line = lead;
  let empty = true;
  for (const word of text.split(/\s+/).filter(Boolean)) {
    if (!empty && line.length + 1 + word.length > COLUMNS) {
      lines.push(line);
      line = indent + word;
    } else {
      line += empty ? word : ` ${word}`;
    }
    empty = false;
  }
  return [...lines, line];
}

/** Two columns: a short label and its text, wrapped beside it. */
export function labelled(label: string, text: string, width = 12): string[] {
  return wrapped(text, label.padEnd(width));
}
