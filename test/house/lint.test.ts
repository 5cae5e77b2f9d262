/** The formatter, the linter and the search for dead code, with the settings of `biome.json` and of `knip` in package.json. */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { ROOT } from './layers.ts';

function run(...words: readonly string[]) {
  return spawnSync(process.execPath, words, { cwd: ROOT, encoding: 'utf8', maxBuffer: 1e8 });
}

test('every file is formatted, and the linter finds nothing', () => {
  const { status, stdout, stderr } = run('node_modules/@biomejs/biome/bin/biome', 'check', '--error-on-warnings', '.');
  const printed = stdout + stderr;
  expect(status === 0 ? '' : printed).toBe('');
  const files = Number(/Checked (\d+) files/.exec(printed)?.[1]);
  expect(files).toBeGreaterThan(700);
  console.log(`${files} files`);
});

test('nothing is exported that no other file uses, and no package or file is left over', () => {
  const { status, stdout, stderr } = run(join('node_modules', 'knip', 'bin', 'knip.js'), '--no-progress');
  expect([status, stdout, stderr]).toEqual([0, '', '']);
});
