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

test('the packed extension is below 1 MB and holds what the editor loads, its licences, and nothing else', () => {
  const archive = readFileSync(join(ROOT, 'dist', 'alignbook.vsix'));
  expect(filesIn(archive).sort()).toEqual([
    '[Content_Types].xml',
    'extension.vsixmanifest',
    ...[
      'LICENSE.txt', 'changelog.md',
      'dist/THIRD-PARTY-LICENSES.txt', 'dist/expressions.cjs', 'dist/extension.cjs', 'dist/extension.web.js', 'dist/preview/notebook.js', 'dist/preview/panel.js', 'dist/server-worker.js', 'dist/server.cjs',
      'package.json', 'package.nls.json', 'readme.md',
      'shared/findings.md', 'shared/l10n/bundle.l10n.json',
      ...['create', 'look', 'record', 'safe', 'shoot'].map((step) => `shared/walkthrough/${step}.md`),
      'syntaxes/alignbook.tmLanguage.json', 'syntaxes/language-configuration.json',
    ].map((file) => `extension/${file}`),
  ]);
  expect(archive.length).toBeLessThan(1_000_000);
  console.log(`packed: ${Math.round(archive.length / 1000)} kB`);
});

/** The names in a zip archive's directory, which its last record leads to. */
function filesIn(archive: Buffer): string[] {
  const last = archive.lastIndexOf('PK\x05\x06');
  const names: string[] = [];
  for (let at = archive.readUInt32LE(last + 16); at >= 0; at = archive.indexOf('PK\x01\x02', at + 46)) {
    names.push(archive.toString('utf8', at + 46, at + 46 + archive.readUInt16LE(at + 28)));
  }
  return names;
}
