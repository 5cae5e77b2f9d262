/**
 * What Node compiled of the program when it was built: accepted by that Node, for that program, and not needed where it
 * is not there.
 */
import { execFileSync } from 'node:child_process';
import {
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Script } from 'node:vm';
import { afterAll, expect, test } from 'vitest';
import { ROOT } from './layers.ts';

const dist = join(ROOT, 'dist');
const compiled = () => readdirSync(dist).filter((file) => file.endsWith('.compiled'));
const source = () => readFileSync(join(dist, 'program.cjs'), 'utf8');

test('there is one, of this program and for this Node, and Node takes it', () => {
  const [name, ...others] = compiled();
  expect(others).toEqual([]);
  const [, hash, version] = /^program\.([0-9a-f]{16})\.(v[\d.]+)\.\w+\.compiled$/.exec(name!)!;
  expect(source().endsWith(`//${hash}\n`)).toBe(true);
  expect(version).toBe(process.version);
  expect(
    new Script(`(function (require) {${source()}\n})`, { cachedData: readFileSync(join(dist, name!)).subarray(0, -4) })
      .cachedDataRejected,
  ).toBe(false);
});

test.each<[string, (file: string) => void]>([
  ['where it is', () => undefined],
  ['where it is not', (file) => rmSync(file)],
  ['where it is no such thing', (file) => writeFileSync(file, 'half a file')],
  ['where its second half is lost', (file) => writeFileSync(file, readFileSync(file).fill(0, 600_000))],
  ['where it is a folder', (file) => (rmSync(file), mkdirSync(file))],
  ['where it is a pipe that nobody writes into', (file) => (rmSync(file), execFileSync('mkfifo', [file]))],
  ['where it has no end', (file) => (rmSync(file), symlinkSync('/dev/zero', file))],
  ['where one letter of it is another', (file) => writeFileSync(file, readFileSync(file).fill(7, 300_000, 300_001))],
])('the program says the same %s', (_, spoil) => {
  const where = copied('alignbook.cjs', 'program.cjs', 'expressions.cjs', 'files.cjs');
  spoil(join(where, compiled()[0]!));
  const said = (at: string) =>
    execFileSync(process.execPath, [join(at, 'alignbook.cjs'), 'next', 'examples/1-full-service.alignbook.yaml'], {
      cwd: ROOT,
      encoding: 'utf8',
      timeout: 10_000,
    });
  expect(said(where)).toBe(said(dist));
  expect(said(where)).toContain('M2');
});

test('Node’s compile cache is not in the folder that every user may write to, where a pipe would block it', () => {
  const [shared, own] = [folder(), folder()];
  execFileSync(process.execPath, [join(dist, 'alignbook.cjs'), 'report', 'examples/1-full-service.alignbook.yaml'], {
    cwd: ROOT,
    env: { ...process.env, TMPDIR: shared, XDG_CACHE_HOME: own },
    stdio: 'ignore',
  });
  expect([readdirSync(shared), readdirSync(own)]).toEqual([[], ['alignbook']]);
});

test('another program of the same length is compiled afresh', () => {
  const where = copied('alignbook.cjs');
  const [before, after] = [`console.log('another');//`, `\n//${'0'.repeat(16)}\n`];
  writeFileSync(
    join(where, 'program.cjs'),
    `${before}${'x'.repeat(source().length - before.length - after.length)}${after}`,
  );
  expect(execFileSync(process.execPath, [join(where, 'alignbook.cjs')], { encoding: 'utf8' })).toBe('another\n');
});

/** With what was compiled beside them. */
function copied(...files: string[]): string {
  const to = folder();
  for (const file of [...files, compiled()[0]!]) copyFileSync(join(dist, file), join(to, file));
  return to;
}

function folder(): string {
  const path = mkdtempSync(join(tmpdir(), 'alignbook-'));
  folders.push(path);
  return path;
}

const folders: string[] = [];
afterAll(() => folders.forEach((path) => rmSync(path, { recursive: true })));
