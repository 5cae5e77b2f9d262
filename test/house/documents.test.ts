/**
 * The documents show what the program really prints (`UPDATE=1` rewrites them, for a person to check the difference).
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { expect, test } from 'vitest';
import { cautionsAt, PRIORS, type Prior } from '../../src/model/index.ts';
import { drawDirections } from '../optics/directions-drawing.ts';
import { ROOT } from './layers.ts';

const README = join(ROOT, 'README.md');
const DOCS = join(ROOT, 'shared', 'docs');
const DIRECTIONS = join(ROOT, 'shared', 'directions.md');
const update = process.env['UPDATE'] !== undefined;

/** The last heading. */
const CAUTIONS = '## Before you fire\n';

/** `$ npx alignbook …` and the lines below it, up to the end of the block. */
const SESSION = /```console\n\$ npx alignbook (.*)\n([^]*?)```/g;

test('the sessions in README.md are what the program prints', () => {
  const text = readFileSync(README, 'utf8');
  const sessions = [...text.matchAll(SESSION)];
  expect(sessions.length).toBeGreaterThanOrEqual(2);
  const real = text.replace(
    SESSION,
    (_, command: string) => `\`\`\`console\n$ npx alignbook ${command}\n${printed(command)}\`\`\``,
  );
  if (update) writeFileSync(README, real);
  else expect(text).toBe(real);
  console.log(`${sessions.length} sessions compared`);
});

function printed(command: string): string {
  return spawnSync('bash', ['-c', `node dist/alignbook.cjs ${command}`], { cwd: ROOT, encoding: 'utf8' }).stdout;
}

test('README.md gives every caution, in the words that the program uses', () => {
  const text = readFileSync(README, 'utf8');
  const [before] = text.split(CAUTIONS);
  const said = Object.values(cautionsAt())
    .flat()
    .map((caution) => `- ${caution}\n`)
    .join('');
  const whole = `${before}${CAUTIONS}\n${said}`;
  if (update) writeFileSync(README, whole);
  else expect(text).toBe(whole);
});

test('the walkthrough gives every caution, in the same words', () => {
  const said = `# Before you fire\n\n${Object.values(cautionsAt())
    .flat()
    .map((caution) => `- ${caution}\n`)
    .join('')}`;
  const file = join(ROOT, 'shared', 'walkthrough', 'safe.md');
  if (update) writeFileSync(file, said);
  else expect(readFileSync(file, 'utf8')).toBe(said);
});

test('shared/directions.md is what the optics draws', () => {
  const drawn = `# Directions\n\nWritten by the program’s own optics; \`test/optics\` compares it with an independent library.\n\n${drawDirections()}`;
  if (update) writeFileSync(DIRECTIONS, drawn);
  else expect(readFileSync(DIRECTIONS, 'utf8')).toBe(drawn);
});

/** The targets between `](` and `)` that are files. */
const LINK = /\]\((?!https?:|#)([^)#]+)(?:#[^)]*)?\)/g;

test('every link of the documents leads to a file', () => {
  const documents = ['README.md', 'DEVELOPERS.md', ...readdirSync(DOCS).map((file) => join('shared', 'docs', file))];
  const links = documents.flatMap((document) =>
    [...readFileSync(join(ROOT, document), 'utf8').matchAll(LINK)].map(([, link]) => [document, link!] as const),
  );
  expect(links.length).toBeGreaterThan(8);
  expect(links.filter(([document, link]) => !existsSync(join(ROOT, dirname(document), link)))).toEqual([]);
});

test('README.md calls the commands by their names', () => {
  const named = [...readFileSync(README, 'utf8').matchAll(/\*Alignbook: ([^*]+)\*/g)].map(([, title]) => title!);
  const titles = JSON.parse(readFileSync(join(ROOT, 'package.nls.json'), 'utf8')) as Record<string, string>;
  expect(named.length).toBeGreaterThan(3);
  expect(named.filter((title) => !Object.values(titles).includes(title))).toEqual([]);
});

test('the pictures in README.md are small: a page with both opens at once', () => {
  const pictures = [...readFileSync(README, 'utf8').matchAll(/!\[[^\]]+\]\(([^)]+)\)/g)].map(([, picture]) => picture!);
  expect(pictures.length).toBe(2);
  for (const picture of pictures) expect(statSync(join(ROOT, picture)).size).toBeLessThan(150_000);
});

test('the cells in format.md are one workbook without a finding', () => {
  const cells = [...readFileSync(join(DOCS, 'format.md'), 'utf8').matchAll(/```yaml\n([^]*?)```/g)].map(
    ([, cell]) => cell!,
  );
  expect(cells.length).toBeGreaterThan(10);
  const folder = mkdtempSync(join(tmpdir(), 'format-'));
  const file = join(folder, 'format.alignbook.yaml');
  writeFileSync(file, cells.join('---\n'));
  const result = printed(`check ${file}`);
  rmSync(folder, { recursive: true });
  expect(result).toBe('');
});

test('format.md names every key of the format', () => {
  const text = readFileSync(join(DOCS, 'format.md'), 'utf8');
  const keys = keysIn(JSON.parse(readFileSync(join(ROOT, 'shared', 'workbook.schema.json'), 'utf8')));
  expect(keys.size).toBeGreaterThan(60);
  // Priors have a table of their own, in decisions.md.
  const missing = [...keys].filter(
    (key) => !(key in PRIORS) && !new RegExp(`[\`{ ]${key}(:|\`)|^${key}:`, 'm').test(text),
  );
  expect(missing).toEqual([]);
});

function keysIn(schema: unknown): Set<string> {
  if (typeof schema !== 'object' || schema === null) return new Set();
  const own = 'properties' in schema ? Object.keys(schema.properties as object) : [];
  return new Set([...own, ...Object.values(schema).flatMap((part) => [...keysIn(part)])]);
}

/** The text after it to the end is written by the test. */
const PRIOR_TABLE = '| name | value | reason |\n|---|---|---|\n';

test('decisions.md lists every prior as it is', () => {
  const file = join(DOCS, 'decisions.md');
  const text = readFileSync(file, 'utf8');
  const [before] = text.split(PRIOR_TABLE);
  const rows = Object.entries(PRIORS).map(([name, prior]) => `| \`${name}\` | ${inUnits(prior)} | ${prior.reason} |\n`);
  const whole = `${before}${PRIOR_TABLE}${rows.join('')}`;
  if (update) writeFileSync(file, whole);
  else expect(text).toBe(whole);
});

function inUnits({ dimension, value }: Prior): string {
  const rounded = (number: number) => String(+number.toPrecision(6));
  switch (dimension) {
    case 'length':
      return `${rounded(value)} mm`;
    case 'angle':
      return `${rounded(value * 1000)} mrad`;
    case 'ratio':
      return `${rounded(value * 100)} %`;
    case 'turns':
      return `${rounded(value)} turn`;
  }
}
