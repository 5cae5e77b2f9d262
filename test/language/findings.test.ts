/**
 * Every finding can be met, is explained where it stands, and has a section in `shared/findings.md`, which is written
 * from the table (`UPDATE=1` writes it anew, with the place in `examples/mistakes.alignbook.yaml` that shows it).
 */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { findings as table, type FindingCode } from '../../shared/findings.ts';
import { lineOnPage, message, type Finding } from '../../src/model/index.ts';
import { withoutHalfTyped, createGuide, hoverAt, relatedPlaces } from '../../src/language/index.ts';
import { place, readMarkers, writeMarkers } from '../workbook/markers.ts';
import { after, bookOf } from '../support/workbook.ts';

/** Many editors replace a lone carriage return when they save a file, so it does not stand in the example. */
const LONE_RETURN = '---\nnote: before\rafter\n';
const mistakes = bookOf(
  `${readFileSync(new URL('../../examples/mistakes.alignbook.yaml', import.meta.url), 'utf8')}${LONE_RETURN}`,
);
const codes = Object.keys(table) as FindingCode[];
const result = new Map(mistakes.findings().map((finding): [string, Finding] => [finding.code, finding]));
/** Said of a file, not in one: the command line has its case. */
const OUTSIDE: ReadonlySet<string> = new Set(['file.unreadable']);
/** Too long to be written down here. */
const HUGE = `note: ${'x'.repeat(1_000_001)}`;

const guide = createGuide();
const page = new URL('../../shared/findings.md', import.meta.url);
const cases = new URL('cases/', import.meta.url);

const startOf = ({ cell, span }: Finding) => (mistakes.split.cells[cell]?.start ?? 0) + span.start;
const markedIn = (folder: URL) =>
  readdirSync(folder)
    .filter((name) => name.endsWith('.yaml'))
    .map((name): [name: string, marked: string] => [name, readFileSync(new URL(name, folder), 'utf8')]);

test.each(markedIn(cases))('%s: every finding is expected, and every expectation met', (name, marked) => {
  const { text, expected } = readMarkers(marked);
  const book = bookOf(text);
  const places = book.findings().map((finding) => place(book.workbook, finding));
  if (process.env['UPDATE'] !== undefined) writeFileSync(new URL(name, cases), writeMarkers(text, places));
  else expect(places.toSorted()).toEqual([...expected].toSorted());
});

test('every code has a case, a place among the mistakes, and a hover with its help', () => {
  const marked = [...markedIn(cases), ...markedIn(new URL('../cases/', import.meta.url))].flatMap(
    ([, text]) => readMarkers(text).expected,
  );
  const met = new Set<string>([
    ...marked.map((expected) => expected.split(' ')[1]!),
    ...bookOf(HUGE)
      .findings()
      .map(({ code }) => code),
  ]);
  const missing = codes
    .filter((code) => !OUTSIDE.has(code))
    .flatMap((code) => {
      const finding = result.get(code);
      const lacks: readonly (readonly [boolean, string])[] = [
        [!met.has(code), 'a case in test/cases or test/language/cases'],
        [!finding, 'a cell in examples/mistakes.alignbook.yaml in which it is reported'],
        [!!finding && !explains(finding, code), 'a hover with its help'],
      ];
      return lacks.flatMap(([isMissing, what]) => (isMissing ? [`${code}: ${what}`] : []));
    });
  expect(missing).toEqual([]);
});

function explains(finding: Finding, code: FindingCode): boolean {
  return !!hoverAt(mistakes, guide, startOf(finding))?.text.includes(`**${code}** ${table[code].help}`);
}

test('every code has a section of the page', () => {
  const written = `# Findings\n\n${codes.map((code) => `${sectionOf(code)}\n`).join('')}`;
  if (process.env['UPDATE'] !== undefined) writeFileSync(page, written);
  expect(readFileSync(page, 'utf8')).toBe(written);
  // What an editor takes for the end of a line as well would move all that follows.
  expect(written).not.toMatch(/[\r\v\f\u0085\u2028\u2029]/);
  const lines = written.split('\n');
  for (const code of codes) expect(lines[lineOnPage(code) - 1]).toBe(`## ${code}`);
});

const GRAVITY = {
  error: 'An error: the cell, or the value, cannot be used.',
  warning: 'A warning: it is used, but it is probably not what was meant.',
  information: 'For information.',
  hint: 'A hint about style.',
};

function sectionOf(code: FindingCode): string {
  const { message: wording, help } = table[code];
  const finding = result.get(code);
  const parts = [
    `## ${code}`,
    `> ${wording}`,
    GRAVITY[table[code].severity],
    help,
    ...(OUTSIDE.has(code) ? UNREADABLE : finding ? exampleOf(finding) : []),
  ];
  if (table[code].severity !== 'error')
    parts.push(
      `If it is intended, give the reason on the line above: \`# alignbook: allow ${code}: the reason\`. For a whole workbook: \`rules: {${code}: {off: the reason}}\` in the limits cell.`,
    );
  else parts.push(`If it is intended, give the reason on the line above: \`# alignbook: allow ${code}: the reason\`.`);
  return `${parts.join('\n\n')}\n`;
}

const UNREADABLE = [
  'For example, of `alignbook check no-such-file.alignbook.yaml`:',
  '> This file cannot be read: there is no such file.',
];

/** The line that it is found on, and what is said there. */
function exampleOf(finding: Finding): string[] {
  const line = mistakes.text.slice(mistakes.text.lastIndexOf('\n', startOf(finding) - 1) + 1).split('\n', 1)[0]!;
  const shown = line.trim().length > 90 ? `${line.trim().slice(0, 89)}…` : line.trim();
  return [`For example, of \`${shown.replaceAll('`', '’').replaceAll('\r', '␍')}\`:`, `> ${message(finding)}`];
}

test('findings about a half-typed word are hidden, others are not', () => {
  const book = bookOf(after('adjust: M8\nlock: tigh\n', 'adjust: M9\nlock: tight\n'));
  const codesOf = (typed?: { at: number }) =>
    withoutHalfTyped(book, book.findings(), typed).map(({ code, cell }) => `${cell} ${code}`);
  expect(codesOf()).toEqual(
    ['2 cell.word', '2 log.unread', '3 name.unknown', '3 log.unread'].sort(
      (a, b) => codesOf().indexOf(a) - codesOf().indexOf(b),
    ),
  );
  expect(codesOf({ at: book.text.indexOf('tigh\n') + 4 }).filter((one) => one.startsWith('2'))).toEqual([]);
  expect(codesOf({ at: book.text.indexOf('tigh\n') + 4 })).toContain('3 name.unknown');
});

test('a finding names the places that it rests on', () => {
  const places = mistakes
    .findings()
    .flatMap((finding) => relatedPlaces(mistakes, finding).map(({ message: text }) => `${finding.code}: ${text}`));
  expect([...new Set(places)].sort()).toEqual([
    'date.order: The date before it',
    'log.height: The limit that is exceeded',
    'log.height: The station concerned',
    'log.noLimits: The limits in force here',
    'mark.outside: The aperture that the tape covers',
    'mark.words: The machine in force here',
    'name.unknown: The machine in force here',
    'turn.knob: The machine in force here',
  ]);
});
