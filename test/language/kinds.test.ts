/**
 * Every kind of cell is complete. What the compiler cannot see is asked here of a cell that is begun from the kind's
 * own skeleton; what is missing is named.
 */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { createGuide, completionsAt, hoverAt, outlineOf } from '../../src/language/index.ts';
import { KINDS, type Kind } from '../../src/model/index.ts';
import { recordOf, toMarkdown } from '../../src/record/index.ts';
import { CELL_KINDS } from '../../src/workbook/index.ts';
import { CENTRED, LIMITS, MACHINE } from '../support/log.ts';
import { bookOf } from '../support/workbook.ts';

const guide = createGuide();
const IDENTITY = { file: 'test.alignbook.yaml', hash: '0'.repeat(64), version: '0' };

/**
 * As a person who takes what is offered; the last place is filled with a turn in a list of turns, else with a word that
 * fits wherever a text or a mark does.
 */
function filled(skeleton: string): string {
  return skeleton
    .replace(/\$\{\d+\|([^,|]+)[^}]*\}/g, '$1')
    .replace(/\$\{\d+:([^}]*)\}/g, '$1')
    .replace(/(?<=\{A: )\$0/, 'in 1/4')
    .replace(/(?<=: |^ +)\$0/m, 'centre')
    .replace('$0', '');
}

const VISIT = ['session: look\ndate: 2026-03-14\nby: kt\n', 'checks: safe\ndone: [eyewear]\n', CENTRED.M1];

function withCells(...cells: readonly string[]): string {
  return [MACHINE, LIMITS, ...VISIT, ...cells].join('---\n');
}

function record(text: string): string {
  return toMarkdown(recordOf(bookOf(text), IDENTITY));
}

const BARE = record(withCells());
const BLANK = withCells('');
const OFFERED = completionsAt(bookOf(BLANK), guide, BLANK.length).map(({ label }) => label);

const FORMAT = readFileSync(new URL('../../shared/docs/format.md', import.meta.url), 'utf8');

/** Keys of the cell, each in a line of its own, of which the record prints nothing. A cell needs the others. */
function unprinted(cell: string): string[] {
  const whole = withCells(cell);
  return cell.split('\n').flatMap((line) => {
    const without = withCells(cell.replace(`${line}\n`, ''));
    const isNeeded = bookOf(without).workbook.entries.at(-1)!.entry.kind === 'unread';
    return /^\w/.test(line) && !isNeeded && record(without) === record(whole) ? [line.split(':')[0]!] : [];
  });
}

function missing(kind: Kind): string[] {
  const cell = filled(CELL_KINDS[kind].skeleton);
  const text = withCells(cell);
  const book = bookOf(text);
  const at = text.lastIndexOf(cell);
  const index = book.split.cells.length - 1;
  const entry = book.workbook.entries.at(-1)!.entry;
  const wrong = book.workbook.findings.filter((finding) => finding.cell === index).map(({ code }) => code);
  const about = entry.kind === 'unread' ? '' : CELL_KINDS[entry.kind].about(entry);
  const lacks: readonly (readonly [boolean, string])[] = [
    [entry.kind !== kind || wrong.length > 0, `its skeleton does not read: ${wrong.join(', ')}`],
    [outlineOf(book).at(-1)?.name !== [kind, about].filter(Boolean).join(' '), 'its line in the outline'],
    [!hoverAt(book, guide, at + 1)?.text.includes(`\`${kind}\``), 'its hover'],
    [!OFFERED.includes(kind), 'its completion'],
    [record(text) === BARE, 'its place in the record'],
    ...unprinted(cell).map((key) => [true, `\`${key}\` in the record`] as const),
    [!FORMAT.includes(`| [\`${kind}\`](#${kind}) |`), 'its row in the table of shared/docs/format.md'],
    [!FORMAT.includes(`\n## ${kind}\n`), 'its section in shared/docs/format.md'],
  ];
  return lacks.flatMap(([isMissing, what]) => (isMissing ? [what] : []));
}

test.each(KINDS.map((kind) => [kind]))('a cell of kind %s has everything', (kind) => {
  expect(missing(kind)).toEqual([]);
});
