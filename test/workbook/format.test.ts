/** The usual layout. Copy a line to add a case. */
import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { splitCells } from '../../src/cells/index.ts';
import { formatCell } from '../../src/workbook/index.ts';

const CASES: readonly (readonly [before: string, after: string])[] = [
  [
    'marks:   M2\nshots: { near:  1.5 right 2.0 down,far: centre }  \n',
    'marks: M2\nshots: {near: 1.5 right 2.0 down, far: centre}\n',
  ],
  ['---\ndate: 2026-03-14\nsession: spring\n', '---\nsession: spring\ndate: 2026-03-14\n'],
  [
    'limits: w\nstations:\n    M1: {centre: 3}\n    M2:\n          centre: 2 # as told\n',
    'limits: w\nstations:\n  M1: {centre: 3}\n  M2:\n    centre: 2 # as told\n',
  ],
  ['checks: safe\ndone:\n- eyewear\n- fan\n', 'checks: safe\ndone:\n  - eyewear\n  - fan\n'],
  ['note: |\n     two lines,\n       the second deeper\n', 'note: |\n     two lines,\n       the second deeper\n'],
  ['checks: a\ndone:\n      # why\n      - b\n', 'checks: a\ndone:\n  # why\n  - b\n'],
  ['marks: M2\nshots:\n  - {at: near, mark: }\n', 'marks: M2\nshots:\n  - {at: near, mark: }\n'],
  ['---\nin/out: A\nby: kt\nsession: a\n', '---\nsession: a\nin/out: A\nby: kt\n'],
  ['# why\nby: kt\n# what\nsession: a\n', '# why\nsession: a\nby: kt\n# what\n'],
  ["session: 'a,b:c   d'\n", "session: 'a,b:c   d'\n"],
  ['marks: M2\r\nshots:   centre  \r\n', 'marks: M2\r\nshots: centre\r\n'],
  ['not: [closed\n', 'not: [closed\n'],
];

test.each(CASES)('%j', (before, after) => expect(formatCell(before)).toBe(after));

describe('the examples', () => {
  const folder = new URL('../../examples/', import.meta.url);
  test.each(readdirSync(folder).filter((name) => name.endsWith('.yaml') && !name.startsWith('mistakes')))(
    '%s is laid out as usual',
    (name) => {
      for (const { text } of splitCells(readFileSync(new URL(name, folder), 'utf8')).cells)
        expect(formatCell(text)).toBe(text);
    },
  );
});
