// Packs the extension as it is installed: what the editor loads and nothing else. Everything is bundled, so no package
// comes with it, and the command line goes by npm.
import { cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { createVSIX } from '@vscode/vsce';

const root = fileURLToPath(new URL('..', import.meta.url));
const staged = join(root, 'dist', 'extension');
const { bin, files, scripts, devDependencies, optionalDependencies, allowScripts, ...manifest } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
const kept = [
  manifest.main, manifest.browser, 'dist/server.cjs', 'dist/expressions.cjs', 'dist/server-worker.js', 'dist/preview/panel.js', 'dist/preview/notebook.js', 'dist/THIRD-PARTY-LICENSES.txt',
  'syntaxes', 'shared/l10n', 'shared/findings.md', 'shared/walkthrough', 'package.nls.json', 'README.md', 'CHANGELOG.md', 'LICENSE',
];

rmSync(staged, { recursive: true, force: true });
for (const file of kept) {
  mkdirSync(dirname(join(staged, file)), { recursive: true });
  cpSync(join(root, file), join(staged, file), { recursive: true });
}
writeFileSync(join(staged, 'package.json'), JSON.stringify({ ...manifest, files: ['**'] }));
await createVSIX({ cwd: staged, packagePath: join(root, 'dist', 'alignbook.vsix'), dependencies: false, allowMissingRepository: true, rewriteRelativeLinks: false });
