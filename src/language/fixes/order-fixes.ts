/**
 * Inserts cells that the order of work requires. A title contains a condition if only the user knows whether it is
 * true.
 */
import { lineEndOf } from '../../cells/index.ts';
import type { Finding } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { stretchOf, type Fix } from './fix.ts';

export function orderFixes(book: Book, finding: Finding): Fix[] {
  const { code, facts } = finding;
  if (code === 'session.missing')
    return [{ ...logged(book, finding, 'Begin a visit here', SESSION), isPreferred: true }];
  if (code === 'fire.unchecked')
    return [logged(book, finding, 'Log the safety checks above it, if they were done', CHECKS)];
  const title = TITLES[code];
  const log =
    title === undefined ? [] : [logged(book, finding, title.replace('PART', facts['part'] ?? ''), facts['cell']!)];
  return code.startsWith('release.') ? [...log, withdrawn(book, finding)] : log;
}

/** For findings that carry the cell. */
const TITLES: Readonly<Partial<Record<string, string>>> = {
  'fire.open': 'Log the open checks as done, if they were done',
  'release.open': 'Log the open checks as done, if they were done',
  'release.loose': 'Log that the lock nuts were tightened, if it was done',
  'release.unfit': 'Log what was done to PART, if it was done',
  'release.refit': 'Log that PART was refitted correctly, if it was done',
  'care.overdue': 'Log that PART was inspected, if it was done',
};

const SESSION = 'session: another look\n';
const CHECKS =
  'checks: make safe\ndone: [eyewear on everybody, covers closed, extraction on, cooling on, somebody watches with the extinguisher]\n';

/** Above the cell that needs it; for a visit, at the end of its session cell. */
function logged(book: Book, finding: Finding, title: string, cell: string): Fix {
  const { start, text } = book.split.cells[finding.cell]!;
  const isVisit = book.workbook.entries.some(({ cell: of, entry }) => of === finding.cell && entry.kind === 'session');
  const at = isVisit ? start + text.length : start;
  const gap = isVisit && !text.endsWith('\n') ? '\n' : '';
  return {
    title,
    changes: [{ start: at, end: at, text: `${gap}---\n${cell}`.replaceAll('\n', lineEndOf(book.text)) }],
    finding,
  };
}

/** The machine is out of service until the cause is fixed. */
function withdrawn(book: Book, finding: Finding): Fix {
  const [start, end] = stretchOf(book, finding);
  return {
    title: 'Withdraw the machine until this is done',
    changes: [{ start, end, text: book.text.slice(start, end).replace('in service', 'withdrawn') }],
    finding,
  };
}
