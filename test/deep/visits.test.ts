/**
 * A signed visit does not change: with any cells of any date below an ended visit, its findings, its record and its
 * part of `sessions` stay the same to the byte (the hash and the revision of the file apart).
 */
import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { placed } from '../../src/cli/findings.ts';
import { sessionsText } from '../../src/cli/sessions-text.ts';
import { visitsIn } from '../../src/model/index.ts';
import { sessionHistory } from '../../src/history/index.ts';
import { bookOfVisit, recordOf, toHtml, toMarkdown } from '../../src/record/index.ts';
import { bookOf } from '../support/workbook.ts';
import { random } from '../simulation/random.ts';
import { anyCell, anyVisit, OVER, releasedLog } from '../cli/random-visits.ts';
import { LONGEST, runs, SEED } from '../support/amount.ts';

const examples = new URL('../../examples/', import.meta.url);
const read = (name: string) => readFileSync(new URL(name, examples), 'utf8');
const FILES = Object.fromEntries(
  readdirSync(new URL('machines/', examples)).map((name) => [`machines/${name}`, read(`machines/${name}`)]),
);
const IDENTITY = { file: 'log.alignbook.yaml', hash: '0'.repeat(64), version: '1.2.3' };
const LOGS = runs(200);

interface Output {
  readonly check: readonly string[];
  readonly sessions: readonly string[];
  readonly records: readonly string[];
}

/** @param lines and `visits` that are compared, from the top: as many as the shorter log has */
function outputOf(
  text: string,
  { lines, visits, records }: { readonly lines: number; readonly visits: number; readonly records: readonly number[] },
): Output {
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
  const count = {
    lines: text.split('\n').length - 1,
    visits: visits.length,
    records: [...new Set([1, visits.length])],
  };
  const before = outputOf(text, count);
  for (const cells of more)
    expect(outputOf([text, ...cells].join('---\n'), count), `${where}, then\n${cells.join('---\n')}`).toEqual(before);
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
    LONGEST,
  );

  test('the logs have findings that could have changed', () => {
    console.log(`${LOGS} logs, seed ${SEED}: ${findings} findings, twice each the same`);
    expect(findings).toBeGreaterThan(2 * LOGS);
  });
});
