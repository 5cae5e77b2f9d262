/** Cells that the order of work asks for, put before the one that they are missing from. Only what was done may stay. */
import type { Finding } from '../model/index.ts';
import type { Book } from './book.ts';
import { stretchOf, type Fix } from './fixes.ts';

export function orderFixes(book: Book, finding: Finding): Fix[] {
  const { facts } = finding;
  switch (finding.code) {
    case 'fire.unchecked': return [before(book, finding, 'Write the safety checks above it, if they were done', CHECKS)];
    case 'release.loose': return [before(book, finding, 'Log that the locks were tightened', partsOf(facts['parts']!).map((part) => `adjust: ${part}\nlock: tight\n`).join('---\n')), ...withdrawn(book, finding)];
    case 'release.refit': return [before(book, finding, `Log how ${facts['part']} was put back`, `care: ${facts['part']}\ndid: inspected\nrefit: {${partsOf(facts['missing']!).map((item) => `${item}: ${REFIT[item]}`).join(', ')}}\n`), ...withdrawn(book, finding)];
    case 'care.overdue': return [before(book, finding, `Log that ${facts['part']} was inspected`, `care: ${facts['part']}\ndid: inspected\ndate: ${facts['date']}\n`)];
    case 'release.locked': case 'release.removed': case 'release.stale': case 'release.corners': case 'release.outside': return withdrawn(book, finding);
    default: return [];
  }
}

const CHECKS = 'checks: make safe\ndone: [eyewear on everybody, covers closed, extraction on, cooling on, somebody watches with the extinguisher]\n';
const REFIT: Readonly<Record<string, string>> = { 'flat side': 'down', ring: 'snug', witness: 'lined up', hose: 'refitted' };

function partsOf(list: string): string[] {
  return list.split(/, | and /);
}

function before({ split }: Book, finding: Finding, title: string, cell: string): Fix {
  const { start } = split.cells[finding.cell]!;
  return { title, changes: [{ start, end: start, text: `---\n${cell}` }], finding };
}

/** Until the shots are made the machine is not in service. */
function withdrawn(book: Book, finding: Finding): Fix[] {
  const [start, end] = stretchOf(book, finding);
  return [{ title: 'Withdraw it until that is done', changes: [{ start, end, text: book.text.slice(start, end).replace('in service', 'withdrawn') }], finding }];
}
