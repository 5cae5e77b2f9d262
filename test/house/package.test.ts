/** What a person installs: small, whole, and nothing that was not bundled. */
import { execFileSync, spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { beforeAll, expect, test } from 'vitest';
import { connected } from '../server/client.ts';
import { ROOT } from './layers.ts';

beforeAll(() => void execFileSync(process.execPath, [join(ROOT, '.ci', 'package.mjs')], { cwd: ROOT, stdio: 'ignore' }), 60_000);

test('a finding of the packed server leads to its lines on the page that is packed with it', async () => {
  const packed = join(ROOT, 'dist', 'extension');
  const client = await connected(spawn(process.execPath, [join(packed, 'dist', 'server.cjs'), '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] }));
  await client.open('untitled:first', 'machin: heron\n');
  const [finding] = await client.pull('untitled:first');
  await client.stop();
  const [page, line] = finding!.codeDescription!.href.split('#L') as [string, string];
  expect(relative(packed, fileURLToPath(page))).toBe(join('shared', 'findings.md'));
  expect(readFileSync(fileURLToPath(page), 'utf8').split('\n')[Number(line) - 1]).toBe(`## ${finding!.code}`);
});

test('the packed extension is below 1 MB, has its parts and no packages', () => {
  // Names of files stand in an archive as they are.
  const archive = readFileSync(join(ROOT, 'dist', 'alignbook.vsix'));
  const { main, browser } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as { main: string; browser: string };
  const parts = [main, browser, 'dist/server.cjs', 'dist/expressions.cjs', 'dist/server-worker.js', 'shared/l10n/bundle.l10n.json', 'shared/findings.md', 'package.nls.json', 'syntaxes/alignbook.tmLanguage.json'];
  expect(parts.filter((part) => !archive.includes(join('extension', part)))).toEqual([]);
  for (const other of ['node_modules', 'program.cjs', 'meta.json', 'src/']) expect(archive.includes(other), other).toBe(false);
  expect(archive.length).toBeLessThan(1_000_000);
  console.log(`packed: ${Math.round(archive.length / 1000)} kB`);
});
