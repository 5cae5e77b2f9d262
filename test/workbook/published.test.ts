/** The published schema is the one that the code makes (`UPDATE=1` writes it), and it says what the reader says. */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parse, parseAllDocuments } from 'yaml';
import { workbookSchema } from '../../src/workbook/index.ts';
import { isValid, type JsonSchema } from './json-schema.ts';
import { GOOD } from './sample.ts';

const file = new URL('../../shared/workbook.schema.json', import.meta.url);
const examples = new URL('../../examples/', import.meta.url);
const schema = workbookSchema() as JsonSchema;

test('the file is current', () => {
  const made = `${JSON.stringify(schema, undefined, 2)}\n`;
  if (process.env['UPDATE'] !== undefined) writeFileSync(file, made);
  expect(readFileSync(file, 'utf8')).toBe(made);
});

test('every key has a description, and an example where its own keys do not show it', () => {
  const bare: string[] = [];
  const visit = (at: unknown, path: string): void => {
    if (typeof at !== 'object' || at === null) return;
    for (const [key, value] of Object.entries((at as JsonSchema).properties ?? {})) {
      const { description, examples: shown } = value as { description?: string; examples?: unknown[] };
      if (description === undefined || shown === undefined || shown.length === 0) bare.push(`${path}/${key}`);
    }
    for (const [key, value] of Object.entries(at)) visit(value, `${path}/${key}`);
  };
  visit(schema, '');
  expect(bare).toEqual([]);
});

function cellsOf(text: string): unknown[] {
  return parseAllDocuments(text, { logLevel: 'silent' }).map((document) => document.toJS() as unknown);
}

const good = readdirSync(examples).filter((name) => name.endsWith('.alignbook.yaml') && !name.startsWith('mistakes'));
const texts: [string, string][] = [
  ['the sample', GOOD],
  ...good.map((name): [string, string] => [name, readFileSync(new URL(name, examples), 'utf8')]),
];
test.each(texts)('%s is valid', (_, text) => {
  expect(cellsOf(text).filter((cell) => !isValid(schema, cell))).toEqual([]);
});

test.each([
  '',
  'note: a',
  'x-mine: 1\nsession: a',
  'machine: a\nfrom: b.alignbook.yaml',
  'format: 1\nmachine: a',
  'marks: M1\nshots: 1.5 right',
  'marks: M1\nshots: [centre, {mark: centre, x-why: 1}]',
  'marks: M2\nshots: {near: {right: 1}, x-a: 1}',
  'work: a\nb: 3',
  'limits: a\nrules: {log.bowed: {off: b}}',
  'measure: a\nvalue: [3 mm, 4 mm]\nbetween: [1 mm, 2 mm]',
  'measure: a\nvalues: {front left: 3 mm, 1: [4 mm]}\nlimit: 1 mm\nhours: 1234',
  'note: a\nphoto: [a.jpg, {file: b.jpg}]\nhours: new 0 h',
  'event: a\namended: [{was: nothing, date: 2026-03-15, by: kt, reason: b}, {was: {by: c, x: [1, {y: 2}]}, date: 2026-03-15, by: kt, reason: b}]',
  'machine: a\nfrom: b.alignbook.yaml\nasset: {number: c}\npractice: {seed: 7}',
])('valid: %s', (cell) => expect(isValid(schema, parse(cell))).toBe(true));

describe('mistakes', () => {
  test.each([
    'marsk: M2',
    'marks: M2',
    'marks: M2\nshots: {near: 1.5 right, 2.0 down}',
    'marks: M2\nshots: {}\ntape: old',
    'marks: M2\nshots: []',
    'session: a\nevent: b',
    'session: a\nraeson: b',
    'adjust: M1\nturn: {A: 1/4}',
    'adjust: M1\nlock: lose',
    'release: maybe',
    'machine: 1st',
    'machine: a\nformat: 2',
    'machine: a\npath: {M1: {leg: 3, aperture: 3, colour: 3}}',
    'machine: a\nsource: {}',
    'care: M1\nrefit: {side: down}',
    'measure: a\nvalue: 3 mm\nbetween: [1 mm]',
    'measure: a\nvalue: 3 mm\nbetween: [1 mm, 2 mm, 3 mm]',
    'measure: a\nvalue: 3',
    'note: a\nphoto: {sha256: 12}',
    'note: a\nphoto: []',
    'event: a\namended: [{was: gone, date: 2026-03-15, by: kt, reason: b}]',
    'event: a\namended: [{was: nothing, date: 2026-03-15, by: kt}]',
    'machine: a\nasset: {colour: red}',
    'just a text',
  ])('%s', (cell) => expect(isValid(schema, parse(cell))).toBe(false));
});
