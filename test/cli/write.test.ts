/** Where `--out` leads: a file of its own, another name of something, a folder, a device, standard output. */
import { spawnSync } from 'node:child_process';
import {
  chmodSync,
  existsSync,
  linkSync,
  lstatSync,
  mkdirSync,
  readFileSync,
  readdirSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join, relative } from 'node:path';
import { afterAll, beforeEach, expect, test } from 'vitest';
import { LIMITS, MACHINE } from '../support/log.ts';
import { folder, typed } from './terminal.ts';

const place = folder();
afterAll(() => place.remove());
/** An own folder for each test, with a workbook that takes its machine from another. */
let [here, workbook, machine, old, count] = ['', '', '', '', 0];
const OLD = 'what was there before\n';

beforeEach(() => {
  here = join(place.path, String(++count));
  machine = place.file(`${count}/machine.alignbook.yaml`, MACHINE);
  workbook = place.file(
    `${count}/w.alignbook.yaml`,
    ['machine: wren\nfrom: machine.alignbook.yaml\n', LIMITS, 'session: a\n', 'marks: M1\nshots: centre\n'].join(
      '---\n',
    ),
  );
  old = place.file(`${count}/old.html`, OLD);
});

const read = (file: string) => readFileSync(file, 'utf8');
const record = () => typed('report', workbook).out;

/** Ways to name a file that was read, without its name. */
const OTHER_NAMES: Readonly<Record<string, (input: string, link: string) => string>> = {
  'a symbolic link': (input, link) => (symlinkSync(input, link), link),
  'a link to a link': (input, link) => (symlinkSync(input, `${link}.1`), symlinkSync(`${link}.1`, link), link),
  'a hard link': (input, link) => (linkSync(input, link), link),
};

const TO = ['the workbook', 'the file that its machine is taken from'] as const;

test.each(Object.keys(OTHER_NAMES).flatMap((name) => TO.map((of) => [name, of] as const)))(
  'what was read is not written over: %s to %s',
  (name, of) => {
    const input = of === 'the workbook' ? workbook : machine;
    const before = read(input);
    for (const words of [['report'], ['draw', '--path']]) {
      const out = OTHER_NAMES[name]!(input, join(here, `${words[0]}.svg`));
      const { exit, error } = typed(...words, workbook, '--out', out);
      expect({ exit, after: read(input), link: read(out) }).toEqual({ exit: 2, after: before, link: before });
      expect(error).toContain(`${out} is one of the files that were read and is not overwritten.`);
    }
  },
);

test('a workbook with another ending is not written over by its own name, however that is spelled', () => {
  const plain = place.file(`${count}/w.svg`, read(workbook));
  for (const out of [plain, join(here, '..', String(count), '.', 'w.svg'), relative(process.cwd(), plain)]) {
    expect(typed('draw', plain, '--path', '--out', out)).toMatchObject({
      exit: 2,
      error: expect.stringContaining('is one of the files that were read'),
    });
    expect(read(plain)).toBe(read(workbook));
  }
});

test('another workbook is not written over through a link either', () => {
  const other = place.file(`${count}/other.alignbook.yaml`, 'note: another\n');
  const out = join(here, 'r.html');
  symlinkSync(other, out);
  expect(typed('report', workbook, '--out', out)).toMatchObject({
    exit: 2,
    error: expect.stringContaining('leads to a workbook'),
  });
  expect(read(other)).toBe('note: another\n');
});

test('a link to something else stays a link, and what it leads to is written anew', () => {
  mkdirSync(join(here, 'elsewhere'));
  const real = place.file(`${count}/elsewhere/kept.html`, OLD);
  const out = join(here, 'r.html');
  symlinkSync(join('elsewhere', 'kept.html'), out);
  expect(typed('report', workbook, '--out', out)).toEqual({ exit: 0, out: '', error: '' });
  expect([lstatSync(out).isSymbolicLink(), read(real)]).toEqual([true, record()]);
  expect(readdirSync(join(here, 'elsewhere'))).toEqual(['kept.html']);
});

test('the other name of a hard link keeps what it had', () => {
  const out = join(here, 'r.html');
  linkSync(old, out);
  expect(typed('report', workbook, '--out', out).exit).toBe(0);
  expect([read(out), read(old)]).toEqual([record(), OLD]);
});

test('a link to a file that is not there is refused, and stays', () => {
  const out = join(here, 'r.html');
  symlinkSync(join(here, 'nowhere.html'), out);
  expect(typed('report', workbook, '--out', out)).toMatchObject({
    exit: 2,
    error: expect.stringContaining('is a link to a file that does not exist'),
  });
  expect([lstatSync(out).isSymbolicLink(), existsSync(join(here, 'nowhere.html'))]).toEqual([true, false]);
});

test.each([
  ['r.html', 'report'],
  ['r.pdf', 'report', '--pdf'],
  ['t.svg', 'draw', '--path'],
  ['t.png', 'draw', '--path'],
])('a folder is not written: %s', (name, ...words) => {
  const out = join(here, name);
  mkdirSync(out);
  expect(typed(...words, workbook, '--out', out)).toMatchObject({
    exit: 2,
    out: '',
    error: `alignbook: ${out} is a folder.\n`,
  });
  expect(readdirSync(out)).toEqual([]);
});

test('an existing file keeps its permissions; a new one has those of any new file', () => {
  chmodSync(old, 0o640);
  const fresh = join(here, 'r.html');
  for (const out of [old, fresh]) expect(typed('report', workbook, '--out', out).exit).toBe(0);
  writeFileSync(join(here, 'any'), '');
  expect([statSync(old).mode, statSync(fresh).mode]).toEqual([0o100640, statSync(join(here, 'any')).mode]);
  expect(readdirSync(here).sort()).toEqual(['any', 'machine.alignbook.yaml', 'old.html', 'r.html', 'w.alignbook.yaml']);
});

test('what a killed process left is removed, what another one is writing stays', () => {
  const { pid: ended } = spawnSync(process.execPath, ['--version']);
  const part = (owner: number | string) => `.alignbook-${owner}-00000000.part`;
  const names = [part(ended), part(process.pid), part(process.ppid), part('x'), '.alignbook-notes.part'];
  for (const name of names) writeFileSync(join(here, name), '');
  expect(typed('report', workbook, '--out', old).exit).toBe(0);
  expect(names.filter((name) => existsSync(join(here, name)))).toEqual(names.slice(2));
});

test('`-` is standard output', () => {
  expect(typed('report', workbook, '--out', '-')).toEqual({ exit: 0, out: record(), error: '' });
  expect(typed('report', workbook, '--markdown', '--out', '-').out).toBe(typed('report', workbook, '--markdown').out);
  expect(typed('draw', workbook, '--path', '--out', '-').out).toBe(typed('draw', workbook, '--path').out);
  expect(existsSync('-')).toBe(false);
});

test.skipIf(process.platform === 'win32')('a device is written as it is, and stays one', () => {
  expect(typed('report', workbook, '--out', '/dev/null')).toEqual({ exit: 0, out: '', error: '' });
  expect(lstatSync('/dev/null').isCharacterDevice()).toBe(true);
  if (process.platform === 'linux')
    expect(typed('report', workbook, '--out', '/dev/full')).toMatchObject({
      exit: 2,
      error: expect.stringContaining('the disk is full'),
    });
});
