/**
 * What has been signed stays as it was: whatever is written below an ended visit, and of whatever date, its findings, its
 * record and its part of `sessions` are the same to the byte (the hash and the revision of the file apart).
 */
import { readFileSync, readdirSync } from 'node:fs';
import { afterAll, describe, expect, test } from 'vitest';
import { placed } from '../../src/cli/findings.ts';
import { sessionsText } from '../../src/cli/sessions-text.ts';
import { visitsIn } from '../../src/model/index.ts';
import { sessionHistory } from '../../src/history/index.ts';
import { bookOfVisit, recordOf, toHtml, toMarkdown } from '../../src/record/index.ts';
import { bookOf } from '../support/workbook.ts';
import { random } from '../simulation/random.ts';
import { LIMITS, MACHINE } from './logs.ts';
import { anyCell, anyVisit, OVER, releasedLog } from './random-visits.ts';
import { folder, typed } from './terminal.ts';

const examples = new URL('../../examples/', import.meta.url);
const read = (name: string) => readFileSync(new URL(name, examples), 'utf8');
const FILES = Object.fromEntries(
  readdirSync(new URL('machines/', examples)).map((name) => [`machines/${name}`, read(`machines/${name}`)]),
);
const IDENTITY = { file: 'log.alignbook.yaml', hash: '0'.repeat(64), version: '1.2.3' };
const SEED = Number(process.env['SEED'] ?? 14);
const LOGS = Number(process.env['LOGS'] ?? 200);

interface Seen {
  readonly check: readonly string[];
  readonly sessions: readonly string[];
  readonly records: readonly string[];
}

/** @param lines and `visits` of which something is asked, from the top: as many as there are in the shorter log */
function seen(
  text: string,
  { lines, visits, records }: { readonly lines: number; readonly visits: number; readonly records: readonly number[] },
): Seen {
  const book = bookOf(text, FILES);
  const { entries, split } = book.workbook;
  const { sessions } = sessionHistory(entries, book.log);
  const record = (visit: number) => {
    const blocks = recordOf(bookOfVisit(book, visit)!, IDENTITY);
    return [toMarkdown(blocks), toHtml(blocks, IDENTITY)].join('\n');
  };
  return {
    check: placed(text, split, book.findings())
      .filter(({ range }) => range.start.line < lines)
      .map((finding) => JSON.stringify(finding)),
    sessions: sessions
      .slice(0, visits)
      .map(
        (session) =>
          JSON.stringify(session) +
          sessionsText(
            'log',
            { sessions: [session], forecasts: [] },
            book.evaluation().stations[0]?.frame.units ?? 'mm',
            (_, words) => words,
          ),
      ),
    records: records.map(record),
  };
}

/** @param more cells that are appended; the last visit of `text` is over */
function staysTheSame(text: string, more: readonly (readonly string[])[], where: string): number {
  const visits = visitsIn(bookOf(text, FILES).workbook.entries);
  expect(visits.at(-1)?.isEnded, where).toBe(true);
  const asked = {
    lines: text.split('\n').length - 1,
    visits: visits.length,
    records: [...new Set([1, visits.length])],
  };
  const before = seen(text, asked);
  for (const cells of more)
    expect(seen([text, ...cells].join('---\n'), asked), `${where}, then\n${cells.join('---\n')}`).toEqual(before);
  return before.check.length;
}

const EXAMPLES = readdirSync(examples).filter((name) => name.endsWith('.alignbook.yaml'));

test.each(EXAMPLES)('%s, signed off', (name) => {
  const draw = random(SEED);
  const signed = `${read(name).trimEnd()}\n---\nrelease: in service\nby: kt\n`;
  staysTheSame(
    signed,
    [['note: a tape was ordered\ndate: 2030-01-01\n'], [anyCell(draw, OVER)], anyVisit(draw, OVER)],
    name,
  );
});

describe(`${LOGS} logs, drawn from ${SEED}`, () => {
  const TENTH = Math.ceil(LOGS / 10);
  let findings = 0;
  test.each(Array.from({ length: Math.ceil(LOGS / TENTH) }, (_, k) => k))(
    'part %i',
    (part) => {
      for (let k = part * TENTH; k < Math.min(LOGS, (part + 1) * TENTH); k++) {
        const draw = random(1000 * SEED + k);
        findings += staysTheSame(
          releasedLog(draw).join('---\n'),
          [[anyCell(draw, OVER)], anyVisit(draw, OVER)],
          `log ${k} of seed ${SEED}`,
        );
      }
    },
    240_000,
  );

  test('they have findings that could have changed', () => {
    console.log(`${LOGS} logs, seed ${SEED}: ${findings} findings, twice each the same`);
    expect(findings).toBeGreaterThan(2 * LOGS);
  });
});

describe('report --visit', () => {
  const place = folder();
  afterAll(() => place.remove());
  const visit = (name: string, mark: string) => [
    `session: ${name}\ndate: 2026-03-07\n`,
    `marks: M1\nshots: ${mark}\n`,
    'release: withdrawn\nby: kt\n',
  ];
  const file = place.file(
    'two.alignbook.yaml',
    [
      MACHINE,
      LIMITS,
      ...visit('spring', '1 right 0 up'),
      ...visit('autumn', '2 right 0 up'),
      'note: a tape was ordered\ndate: 2027-01-01\n',
    ].join('---\n'),
  );

  test('is of that visit; the last one is what it is without', () => {
    expect(typed('report', file, '--markdown', '--visit', '1').out).toMatch(/\| visit \| spring \|[^]*1\.0 ± 0\.2 mm/);
    expect(typed('report', file, '--markdown', '--visit', '2').out).toBe(typed('report', file, '--markdown').out);
    expect(typed('report', file, '--markdown').out).toContain('| visit | autumn |');
  });

  test('says what there is where there is no such visit', () => {
    expect(typed('report', file, '--visit', '3')).toMatchObject({
      exit: 2,
      out: '',
      error: `alignbook: There is no visit 3 in ${file}: it has 2.\n`,
    });
    for (const wrong of ['0', 'two', '1.5'])
      expect(typed('report', file, '--visit', wrong)).toMatchObject({ exit: 2, out: '' });
    expect(typed('check', file, '--visit', '1')).toMatchObject({ exit: 2 });
  });
});

test('next shows what was noticed in the last visit, and errors; check shows all', () => {
  const place = folder();
  const off = 'marks: M2\nshots: {near: 5 right 0 up, far: 5 right 0 up}\n';
  const file = place.file(
    'noticed.alignbook.yaml',
    [MACHINE, LIMITS, 'session: one\n', off, 'marks: M1\nshots: 1 rigth 0 up\n', 'session: two\n', off].join('---\n'),
  );
  const lines = (out: string, code: string) =>
    [...out.matchAll(new RegExp(`:(\\d+):\\d+ \\w+\\s+${code.replace('.', '\\.')}`, 'g'))].length;
  const [check, next] = [typed('check', file).out, typed('next', file).out];
  expect([lines(check, 'log.height'), lines(next, 'log.height')]).toEqual([2, 1]);
  expect([lines(check, 'fire.unchecked'), lines(next, 'fire.unchecked')]).toEqual([2, 1]);
  expect([lines(check, 'mark.word'), lines(next, 'mark.word')]).toEqual([1, 1]);
  expect(JSON.parse(typed('next', '--json', file).out)).toMatchObject({
    findings: JSON.parse(typed('check', '--json', file).out).findings,
  });
  place.remove();
});
