/** `new`: from answers typed or given as options to a workbook without a finding; nothing is overwritten. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { builtInto } from './built.ts';
import { asked, folder, typed } from './terminal.ts';

const place = folder();
const program = join(place.path, 'program', 'alignbook.cjs');
beforeAll(() => builtInto(join(place.path, 'program')), 60_000);
afterAll(() => place.remove());

let [here, count] = ['', 0];
beforeEach(() => {
  here = join(place.path, String(++count));
  mkdirSync(here);
});

const OPTIONS: Readonly<Record<string, string>> = {
  name: 'heron',
  tube: 'rear-left',
  units: 'mm',
  travel: '900 x 600',
  screws: '3',
  'empty-corner': 'upper-right',
  locks: 'nut',
  nozzle: 'none',
  plumb: '12',
};

const words = (options: Readonly<Record<string, string>>) =>
  Object.entries(options).map(([name, value]) => `--${name}=${value}`);
const without = (...names: string[]) =>
  Object.fromEntries(Object.entries(OPTIONS).filter(([name]) => !names.includes(name)));
const file = () => join(here, 'heron.alignbook.yaml');
const text = () => readFileSync(file(), 'utf8');

test('by options alone nothing is asked, and the workbook has no finding', async () => {
  const { exit, out, error } = await asked(['new', join(here, 'heron'), ...words(OPTIONS)], []);
  expect([exit, error]).toEqual([0, '']);
  expect(out).toContain('Created');
  expect(typed('check', file())).toMatchObject({ exit: 0, out: '' });
  expect(text()).toContain('session: first alignment\ndate: 2026-06-30\n');
});

test('what no option gives is asked, again until it can be read', async () => {
  const answers = ['', 'roof', 'rear left', 'mm', '900', '51 1/8 35', '2', 'maybe', 'none', '5 x 40', '12 mrad'];
  const { exit, out } = await asked(['new', file()], answers);
  expect(exit).toBe(0);
  expect(out).toContain('name [heron]: ');
  expect(out).toContain('  One of rear-left, rear-right');
  expect(out).toContain('  Two lengths in mm, such as 900 x 600.');
  // With two screws there is no empty corner.
  expect(out).not.toContain('which corner of the plate');
  expect(text()).toMatch(/^machine: heron$/m);
  expect(text()).toContain('far: 151.13 mm');
  expect(typed('check', file())).toMatchObject({ exit: 0, out: '' });
});

test('where the answers end nothing is written, and the missing option is named', async () => {
  const { exit, error } = await asked(['new', file(), ...words(without('nozzle'))], []);
  expect([exit, error]).toEqual([2, 'alignbook: No answer: `--nozzle` is missing. Nothing was written.\n']);
  expect(readdirSync(here)).toEqual([]);
});

describe('an option that cannot be read is refused before anything is asked', () => {
  test.each([
    ['name', '9', 'Use a letter first.'],
    ['tube', 'roof', 'One of rear-left'],
    ['units', 'cm', 'One of mm, in.'],
    ['travel', '4', 'Two lengths in mm, such as 900 x 600.'],
    ['travel', '9e99 x 1', 'Two lengths'],
    ['screws', '4', 'One of 3, 2.'],
    ['empty-corner', 'top', 'One of upper-left'],
    ['locks', 'glue', 'One of nut, none, unknown.'],
    ['nozzle', '-1 x 4', 'Two lengths in mm, such as 4 x 45, or none, or unknown.'],
    ['plumb', '1e9', 'A number of mrad, such as 12, or none.'],
    ['plumb', '\u001b[2J', '`--plumb \\u001b[2J`: A number'],
  ])('--%s %s', async (name, value, reason) => {
    const { exit, out, error } = await asked(['new', file(), ...words({ ...OPTIONS, [name]: value })], []);
    expect([exit, out]).toEqual([2, '']);
    expect(error).toContain(reason);
    expect(readdirSync(here)).toEqual([]);
  });

  test('one that is not for this mount', async () => {
    const { exit, error } = await asked(['new', file(), ...words({ ...OPTIONS, screws: '2' })], []);
    expect([exit, error]).toEqual([
      2,
      'alignbook: `--empty-corner` is for mounts with three screws. Nothing was written.\n',
    ]);
  });
});

test.each([
  ['quotes', `a"b'c`],
  ['a line end and a cell', 'a\n---\nrelease: in service\nby: x'],
  ['a comment that silences', 'alignbook: allow mark.outside: x'],
  ['letters from afar', 'Žluťoučký kůň 試験'],
  ['a truth value', 'on'],
])('a hostile name does no harm: %s', async (_, name) => {
  expect((await asked(['new', file(), ...words({ ...OPTIONS, name })], [])).exit).toBe(0);
  expect(typed('check', file())).toMatchObject({ exit: 0, out: '' });
  expect(text().match(/^---$/gm)).toHaveLength(3);
});

describe('nothing is overwritten', () => {
  const refused = async (name: string) => {
    const { exit, error } = await asked(['new', name, ...words(OPTIONS)], []);
    expect(exit).toBe(2);
    expect(error).toContain('is there already. Nothing was written.');
  };

  test('a file, a folder, a link to nothing', async () => {
    const old = place.file(`${count}/old.alignbook.yaml`, 'mine\n');
    await refused(old);
    await refused(old.replace('.alignbook.yaml', ''));
    expect(readFileSync(old, 'utf8')).toBe('mine\n');
    mkdirSync(join(here, 'folder.yaml'));
    await refused(join(here, 'folder.yaml'));
    symlinkSync(join(here, 'nowhere'), join(here, 'link.yaml'));
    await refused(join(here, 'link.yaml'));
    expect(existsSync(join(here, 'nowhere'))).toBe(false);
  });

  test('a folder that is not there is named', async () => {
    const { exit, error } = await asked(['new', join(here, 'no', 'heron'), ...words(OPTIONS)], []);
    expect([exit, error]).toEqual([2, expect.stringContaining('its folder does not exist')]);
  });
});

test.each([[[]], [['a', 'b']], [['-']]])('it needs the name of one file: %j', (names) => {
  expect(typed('new', ...names)).toMatchObject({ exit: 2, error: expect.stringContaining('needs the name of') });
});

test('as a process: lines of a pipe answer, and no partial file is left', () => {
  const input = ['heron', 'gantry-right', 'in', '36 x 24', '2', 'none', 'none', 'none', ''].join('\n');
  const { status, stdout } = spawnSync(process.execPath, [program, 'new', file()], { input, encoding: 'utf8' });
  expect([status, stdout]).toEqual([0, expect.stringContaining('travel: 36 x 24\n')]);
  expect(readdirSync(here)).toEqual(['heron.alignbook.yaml']);
  const again = spawnSync(process.execPath, [program, 'new', file()], { input: '', encoding: 'utf8' });
  expect([again.status, again.stdout]).toEqual([2, '']);
});
