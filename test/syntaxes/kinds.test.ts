/** The words of the kinds in the grammar are those of the format: `UPDATE=1` writes them anew. */
import { readFileSync, writeFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { KINDS } from '../../src/model/index.ts';
import { CELL_KINDS } from '../../src/workbook/index.ts';

const file = new URL('../../syntaxes/alignbook.tmLanguage.json', import.meta.url);

interface Grammar {
  readonly repository: {
    readonly keyword: { readonly patterns: readonly [{ match: string }] };
    readonly named: { match: string };
    readonly kind: { begin: string };
  };
}

test('every kind of cell is coloured, and what it names', () => {
  const written = readFileSync(file, 'utf8');
  const grammar = JSON.parse(written) as Grammar;
  const { keyword, named, kind } = grammar.repository;
  const all = KINDS.join('|');
  const naming = KINDS.filter((one) => CELL_KINDS[one].subject !== 'words').join('|');
  keyword.patterns[0].match = `^(?:${all})$`;
  named.match = `^(${naming})(:)\\s+([A-Za-z]\\w*)(?=\\s*(?:#|$))`;
  kind.begin = `^(${all})(:)(?=\\s|$)`;
  const made = `${JSON.stringify(grammar, undefined, 2)}\n`;
  if (process.env['UPDATE'] !== undefined) writeFileSync(file, made);
  expect(readFileSync(file, 'utf8')).toBe(made);
});
