/** The formatter on the command line. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { folder, typed } from './terminal.ts';

const place = folder();
afterAll(() => place.remove());

const MESSY = '---\nshots:   {near:  1 right,far: centre}   # by the rail\nmarks:  M2\n';
const TIDY = '---\nmarks: M2\nshots: {near: 1 right, far: centre}   # by the rail\n';

test('--check names what would change, and changes nothing', () => {
  const messy = place.file('a.alignbook.yaml', MESSY);
  const tidy = place.file('b.alignbook.yaml', TIDY);
  expect(typed('format', '--check', messy, tidy)).toEqual({ exit: 1, out: `${messy}\n`, error: '' });
  expect(typed('format', '--check', tidy)).toEqual({ exit: 0, out: '', error: '' });
  expect(readFileSync(messy, 'utf8')).toBe(MESSY);
});

test('--write changes these files, once, with their line ends and byte order mark', () => {
  const text = `\uFEFF${MESSY.replaceAll('\n', '\r\n')}`;
  const file = place.file('c.alignbook.yaml', text);
  expect(typed('format', '--write', file)).toEqual({ exit: 0, out: `${file}\n`, error: '' });
  expect(readFileSync(file, 'utf8')).toBe(`\uFEFF${TIDY.replaceAll('\n', '\r\n')}`);
  expect(typed('format', '--write', file)).toEqual({ exit: 0, out: '', error: '' });
});

test('a folder stands for its workbooks; what cannot be read is named', () => {
  const within = place.file('d/e.alignbook.yaml', MESSY);
  expect(typed('format', '--check', join(within, '..'))).toMatchObject({ exit: 1, out: `${within}\n` });
  const { exit, error } = typed('format', '--write', join(within, '..', 'gone.alignbook.yaml'));
  expect([exit, error]).toEqual([2, expect.stringContaining('there is no such file')]);
});

test('one of --check and --write is needed', () => {
  for (const words of [[], ['--check', '--write']]) expect(typed('format', 'x', ...words).exit).toBe(2);
});

test('every example is formatted', () => {
  const examples = join(import.meta.dirname, '..', '..', 'examples');
  const names = readdirSync(examples).filter((name) => /^\d.*\.yaml$/.test(name));
  expect(typed('format', '--check', ...names.map((name) => join(examples, name)))).toMatchObject({ exit: 0, out: '' });
  console.log(`${names.length} examples`);
});
