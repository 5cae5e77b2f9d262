// Packs what is installed, each with what it loads and nothing else: the extension for the editor, and the command line
// for npm. Everything is bundled, so no package comes with either.
import { execFileSync } from 'node:child_process';
import { cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { createVSIX } from '@vscode/vsce';

const root = fileURLToPath(new URL('..', import.meta.url));
const dist = join(root, 'dist');
const {
  private: _,
  bin,
  files,
  scripts,
  devDependencies,
  optionalDependencies,
  allowScripts,
  knip,
  ...extension
} = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
const { name, version, description, keywords, license, engines } = extension;

const loaded = [
  extension.main,
  extension.browser,
  'dist/server.cjs',
  'dist/expressions.cjs',
  'dist/server-worker.js',
  'dist/preview/panel.js',
  'dist/preview/notebook.js',
  'dist/THIRD-PARTY-LICENSES.txt',
  'syntaxes',
  'shared/l10n',
  'shared/docs',
  'shared/directions.md',
  'shared/findings.md',
  'shared/icons',
  'shared/walkthrough',
  ...['1-full-service', '2-new-tube', '3-unknown-mount'].map((name) => `examples/${name}.alignbook.yaml`),
  'package.nls.json',
  'README.md',
  'LICENSE',
];
const cwd = stage('extension', loaded, { ...extension, files: ['**'] });
await createVSIX({
  cwd,
  packagePath: join(dist, 'alignbook.vsix'),
  dependencies: false,
  allowMissingRepository: true,
  rewriteRelativeLinks: false,
});

// Named as a folder: npm, started by a script of the project, takes the project for the place where it is.
stage('npm', files, { name, version, description, keywords, license, engines: { node: engines.node }, bin });
execFileSync('npm', ['pack', './npm', '--loglevel', 'warn'], {
  cwd: dist,
  stdio: 'inherit',
  shell: process.platform === 'win32',
});

/** A folder of its own in `dist`, with these files and folders of the project and this manifest. */
function stage(name, copied, manifest) {
  const staged = join(dist, name);
  rmSync(staged, { recursive: true, force: true });
  for (const file of copied) {
    mkdirSync(dirname(join(staged, file)), { recursive: true });
    cpSync(join(root, file), join(staged, file), { recursive: true });
  }
  // The pictures are for the repository's page; packed, they would weigh more than the command line.
  const readme = join(staged, 'README.md');
  writeFileSync(readme, readFileSync(readme, 'utf8').replace(/^!\[.*\]\(.*\)\n\n?/gm, ''));
  writeFileSync(join(staged, 'package.json'), `${JSON.stringify(manifest, undefined, 2)}\n`);
  return staged;
}
