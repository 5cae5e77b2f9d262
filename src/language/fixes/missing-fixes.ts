/** Inserts what is missing: limits of a station, units. */
import { pathTo, type Finding } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { stretchOf, type Fix } from './fix.ts';
import { lineStartAt } from '../book/lines.ts';

/** mm: common practice for a bench engraver; the user should check it. */
const USUAL = '{centre: 2 mm}';

export function missingFixes(book: Book, finding: Finding): Fix[] {
  switch (finding.code) {
    case 'log.noLimits':
      return limits(book, finding);
    case 'quantity.noUnit':
      return units(book, finding);
    case 'machine.none':
      return [];
    case 'cells.empty':
      return emptied(book, finding);
    default:
      return [];
  }
}

/** Into the limits cell in force, or a new one before the marks. */
function limits(book: Book, finding: Finding): Fix[] {
  const station = finding.facts['station']!;
  const title = `Give ${station} limits: ${USUAL}`;
  const last = book.last('limits', finding.cell);
  const line = `  ${station}: ${USUAL}\n`;
  if (!last) {
    const start = book.split.cells[finding.cell]!.start;
    return [
      {
        title,
        changes: [{ start, end: start, text: `---\nlimits: workshop standard\nstations:\n${line}` }],
        finding,
        isPreferred: true,
      },
    ];
  }
  const { start: from, text } = book.split.cells[last.cell]!;
  const block = /^stations:[ \t]*\n/m.exec(text);
  if (block) {
    const at = from + block.index + block[0].length;
    return [{ title, changes: [{ start: at, end: at, text: line }], finding, isPreferred: true }];
  }
  const flow = /^stations:[ \t]*\{/m.exec(text);
  if (flow) {
    const at = from + flow.index + flow[0].length;
    return [{ title, changes: [{ start: at, end: at, text: `${station}: ${USUAL}, ` }], finding, isPreferred: true }];
  }
  const span = last.entry.spans[pathTo('limits')];
  if (!span) return [];
  const at = from + text.indexOf('\n', span.end) + 1;
  return [{ title, changes: [{ start: at, end: at, text: `stations:\n${line}` }], finding, isPreferred: true }];
}

/** The known units, the likeliest first. */
function units(book: Book, finding: Finding): Fix[] {
  const [, end] = stretchOf(book, finding);
  const known = (finding.facts['known'] ?? '')
    .split(/,\s*/)
    .filter((unit) => unit !== '')
    .slice(0, 3);
  return known.map((unit, k) => ({
    title: `Write the unit: ${unit}`,
    changes: [{ start: end, end, text: ` ${unit}` }],
    finding,
    isPreferred: k === 0,
  }));
}

/** The `---` line that opens no cell. */
function emptied(book: Book, finding: Finding): Fix[] {
  const [start] = stretchOf(book, finding);
  const from = lineStartAt(book.text, start);
  const feed = book.text.indexOf('\n', from);
  if (!book.text.startsWith('---', from)) return [];
  return [
    {
      title: 'Delete this `---` line',
      changes: [{ start: from, end: feed < 0 ? book.text.length : feed + 1, text: '' }],
      finding,
      isPreferred: true,
    },
  ];
}
