/** What a person installs: small, whole, and nothing that was not bundled. */
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { ROOT } from './layers.ts';

test('the packed extension is below 1 MB, has its parts and no packages', () => {
  execFileSync(process.execPath, [join(ROOT, '.ci', 'package.mjs')], { cwd: ROOT, stdio: 'ignore' });
  // Names of files stand in an archive as they are.
  const archive = readFileSync(join(ROOT, 'dist', 'alignbook.vsix'));
  const { main, browser } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as { main: string; browser: string };
  const parts = [main, browser, 'dist/server.cjs', 'dist/expressions.cjs', 'dist/server-worker.js', 'l10n/bundle.l10n.json', 'package.nls.json', 'syntaxes/alignbook.tmLanguage.json'];
  expect(parts.filter((part) => !archive.includes(join('extension', part)))).toEqual([]);
  for (const other of ['node_modules', 'program.cjs', 'meta.json', 'src/']) expect(archive.includes(other), other).toBe(false);
  expect(archive.length).toBeLessThan(1_000_000);
  console.log(`packed: ${Math.round(archive.length / 1000)} kB`);
}, 60_000);
