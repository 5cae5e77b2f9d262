/** What a person installs, the extension and the command line: small, whole, and nothing that was not bundled. */
import { execFileSync, spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, statSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join, parse, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { connected } from '../server/client.ts';
import { SHOWN_STATES } from '../../src/model/index.ts';
import { ROOT } from './layers.ts';

beforeAll(
  () => void execFileSync(process.execPath, [join(ROOT, '.ci', 'package.mjs')], { cwd: ROOT, stdio: 'ignore' }),
  60_000,
);

test('a finding of the packed server leads to its lines on the page that is packed with it', async () => {
  const packed = join(ROOT, 'dist', 'extension');
  const client = await connected(
    spawn(process.execPath, [join(packed, 'dist', 'server.cjs'), '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] }),
  );
  await client.open('untitled:first', 'machin: heron\n');
  const [finding] = await client.pull('untitled:first');
  await client.stop();
  const [page, line] = finding!.codeDescription!.href.split('#L') as [string, string];
  expect(relative(packed, fileURLToPath(page))).toBe(join('shared', 'findings.md'));
  expect(readFileSync(fileURLToPath(page), 'utf8').split('\n')[Number(line) - 1]).toBe(`## ${finding!.code}`);
});

test('the packed extension is below 1.1 MB and holds what the editor loads, its licences, and nothing else', () => {
  const archive = readFileSync(join(ROOT, 'dist', 'alignbook.vsix'));
  expect(filesIn(archive).sort()).toEqual([
    '[Content_Types].xml',
    'extension.vsixmanifest',
    ...[
      'LICENSE.txt',
      'dist/THIRD-PARTY-LICENSES.txt',
      'dist/expressions.cjs',
      'dist/extension.cjs',
      'dist/extension.web.js',
      'dist/preview/notebook.js',
      'dist/preview/panel.js',
      'dist/server-worker.js',
      'dist/server.cjs',
      ...['1-full-service', '2-new-tube', '3-unknown-mount'].map((name) => `examples/${name}.alignbook.yaml`),
      'package.json',
      'package.nls.json',
      'readme.md',
      'shared/directions.md',
      ...['decisions', 'editors', 'format'].map((document) => `shared/docs/${document}.md`),
      'shared/findings.md',
      ...['alignbook.png', 'alignbook.svg', 'file-dark.svg', 'file-light.svg', 'machines.svg'].map(
        (icon) => `shared/icons/${icon}`,
      ),
      ...SHOWN_STATES.toSorted().flatMap((sign) =>
        ['dark', 'light'].map((theme) => `shared/icons/verdict-${sign}-${theme}.svg`),
      ),
      'shared/l10n/bundle.l10n.json',
      ...['create', 'look'].map((step) => `shared/walkthrough/${step}.svg`),
      'shared/walkthrough/practise.md',
      'shared/walkthrough/record.svg',
      'shared/walkthrough/safe.md',
      'shared/walkthrough/shoot.svg',
      'syntaxes/alignbook.tmLanguage.json',
      'syntaxes/language-configuration.json',
    ].map((file) => `extension/${file}`),
  ]);
  expect(archive.length).toBeLessThan(1_100_000);
  console.log(`packed: ${Math.round(archive.length / 1000)} kB`);
});

test('every file that the manifest names is packed', () => {
  const packed = join(ROOT, 'dist', 'extension');
  const manifest = readFileSync(join(packed, 'package.json'), 'utf8');
  const named = [...manifest.matchAll(/"(\.?\/?(?:dist|shared|syntaxes)\/[^"]+)"/g)].map(([, file]) => file!);
  expect(named.length).toBeGreaterThan(10);
  expect(named.filter((file) => !existsSync(join(packed, file)))).toEqual([]);
});

test.each(['extension', 'npm'])(
  'every link of the documents packed for %s leads to a file that is packed',
  (folder) => {
    const packed = join(ROOT, 'dist', folder);
    const documents = ['README.md', ...['decisions', 'editors', 'format'].map((name) => `shared/docs/${name}.md`)];
    const links = documents.flatMap((document) =>
      [...readFileSync(join(packed, document), 'utf8').matchAll(/\]\((?!https?:|#)([^)#]+)(?:#[^)]*)?\)/g)].map(
        ([, link]) => join(dirname(document), link!),
      ),
    );
    expect(links.length).toBeGreaterThan(5);
    expect(links.filter((link) => !existsSync(join(packed, link)))).toEqual([]);
  },
);

describe('the npm package, installed in an empty folder without a network', () => {
  const folder = mkdtempSync(join(tmpdir(), 'alignbook-'));
  const installed = join(folder, 'node_modules', 'alignbook');
  const { version } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as { version: string };
  const example = join(ROOT, 'examples', '5-missed.alignbook.yaml');
  beforeAll(
    () => void npm(folder, 'npm', 'install', '--offline', join(ROOT, 'dist', `alignbook-${version}.tgz`)),
    60_000,
  );
  afterAll(() => rmSync(folder, { recursive: true }));

  test('is the program with what it loads and its licences, a few MB, and brings no other package and no Node', () => {
    const files = readdirSync(installed, { recursive: true, encoding: 'utf8' }).filter((file) =>
      statSync(join(installed, file)).isFile(),
    );
    expect(files.map((file) => file.replaceAll('\\', '/')).sort()).toEqual([
      'CHANGELOG.md',
      'LICENSE',
      'README.md',
      ...['THIRD-PARTY-LICENSES.txt', 'alignbook.cjs', 'expressions.cjs', 'files.cjs', 'program.cjs', 'server.cjs'].map(
        (file) => `dist/${file}`,
      ),
      'package.json',
      'shared/directions.md',
      ...['decisions', 'editors', 'format'].map((document) => `shared/docs/${document}.md`),
      'shared/findings.md',
      'shared/workbook.schema.json',
    ]);
    const size = files.reduce((sum, file) => sum + statSync(join(installed, file)).size, 0);
    expect(size).toBeLessThan(3_000_000);
    expect(readdirSync(join(folder, 'node_modules')).filter((name) => !name.startsWith('.'))).toEqual(['alignbook']);
    expect([...new Set(readdirSync(join(folder, 'node_modules', '.bin')).map((file) => parse(file).name))]).toEqual([
      'alignbook',
    ]);
    console.log(`installed: ${Math.round(size / 1000)} kB`);
  });

  test('checks a workbook and prints the next step', () => {
    expect(npm(folder, 'npx', '--offline', 'alignbook', '--version')).toContain(version);
    expect(npm(folder, 'npx', '--offline', 'alignbook', 'check', example)).toBe('');
    expect(npm(folder, 'npx', '--offline', 'alignbook', 'next', example)).toContain('| marks: M2');
  });

  test('declares no module to load, no scripts and nothing of the editor', () => {
    const manifest = JSON.parse(readFileSync(join(installed, 'package.json'), 'utf8')) as object;
    expect(Object.keys(manifest).sort()).toEqual([
      'bin',
      'description',
      'engines',
      'keywords',
      'license',
      'name',
      'version',
    ]);
    expect(() => createRequire(join(folder, 'own.js'))('alignbook') as unknown).toThrow('Cannot find module');
  });
});

test('packing the sources themselves is refused, with the command that packs', () => {
  const { status, stdout } = spawnSync('npm', ['pack', '--dry-run', ROOT], {
    cwd: ROOT,
    encoding: 'utf8',
    env: outside(),
    shell: process.platform === 'win32',
  });
  expect({ status, said: stdout.includes('npm run package') }).toEqual({ status: 1, said: true });
});

/** What it prints. */
function npm(cwd: string, ...[program, ...words]: ['npm' | 'npx', ...string[]]): string {
  return execFileSync(program, words, {
    cwd,
    encoding: 'utf8',
    env: outside(),
    shell: process.platform === 'win32',
    stdio: ['ignore', 'pipe', 'inherit'],
  });
}

/** The environment that npm sets for the scripts of a project would make it work on that project. */
function outside(): NodeJS.ProcessEnv {
  return Object.fromEntries(Object.entries(process.env).filter(([name]) => !/^npm_/i.test(name)));
}

/** The names in a zip archive's directory, which its last record leads to. */
function filesIn(archive: Buffer): string[] {
  const last = archive.lastIndexOf('PK\x05\x06');
  const names: string[] = [];
  for (let at = archive.readUInt32LE(last + 16); at >= 0; at = archive.indexOf('PK\x01\x02', at + 46)) {
    names.push(archive.toString('utf8', at + 46, at + 46 + archive.readUInt16LE(at + 28)));
  }
  return names;
}
