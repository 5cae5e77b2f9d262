// Bundles what ships. Kept to this one thing, because `npm ci` runs it; it never deletes `dist` first, so that a
// failed build leaves the last good one in place.
import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync, mkdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { licences } from './licences.mjs';

const root = new URL('..', import.meta.url);
const { version } = JSON.parse(readFileSync(new URL('package.json', root), 'utf8'));

const common = {
  absWorkingDir: fileURLToPath(root),
  outdir: 'dist',
  bundle: true,
  minify: true,
  // The licences stand together in a file of their own.
  legalComments: 'none',
  define: { ALIGNBOOK_VERSION: JSON.stringify(version) },
  metafile: true,
  logLevel: 'warning',
};

const built = await Promise.all([
  build({
    ...common,
    entryPoints: {
      alignbook: 'src/cli/main.ts',
      program: 'src/cli/program.ts',
      expressions: 'src/cli/expressions.ts',
      files: 'src/cli/files.ts',
      server: 'src/server/main-node.ts',
    },
    external: ['./program.cjs', './expressions.cjs', './files.cjs', './server.cjs'],
    outExtension: { '.js': '.cjs' },
    platform: 'node',
    format: 'cjs',
    // The same library in modules, of which only what is used comes along: for Node it has but one whole.
    alias: { yaml: fileURLToPath(new URL('node_modules/yaml/browser/index.js', root)) },
    // What ships runs on the oldest Node that is supported, whatever built it.
    target: 'node20',
  }),
  build({
    ...common,
    entryPoints: { 'server-worker': 'src/server/main-worker.ts' },
    platform: 'browser',
    format: 'iife',
    target: 'es2022',
  }),
]);
// The editor's own module is there when the editor loads the extension, and nowhere else.
const client = { ...common, external: ['vscode'], format: 'cjs' };
const clients = {
  'extension.meta.json': await build({
    ...client,
    entryPoints: { extension: 'src/extension/main.ts' },
    outExtension: { '.js': '.cjs' },
    platform: 'node',
    target: 'node20',
  }),
  'extension.web.meta.json': await build({
    ...client,
    entryPoints: { 'extension.web': 'src/extension/web.ts' },
    platform: 'browser',
    target: 'es2022',
  }),
  // The panel's page: in the editor's own browser.
  'preview.meta.json': await build({
    ...common,
    outdir: 'dist/preview',
    entryPoints: { panel: 'src/preview/panel/main.tsx' },
    platform: 'browser',
    format: 'iife',
    target: 'es2022',
  }),
  // What the editor imports to draw below a notebook's cells.
  'renderer.meta.json': await build({
    ...common,
    outdir: 'dist/preview',
    entryPoints: { notebook: 'src/preview/notebook/main.tsx' },
    platform: 'browser',
    format: 'esm',
    target: 'es2022',
  }),
};
const all = (part) => Object.assign({}, ...built.map(({ metafile }) => metafile[part]));
mkdirSync(new URL('dist', root), { recursive: true });
writeFileSync(new URL('dist/meta.json', root), JSON.stringify({ inputs: all('inputs'), outputs: all('outputs') }));
for (const [file, { metafile }] of Object.entries(clients))
  writeFileSync(new URL(`dist/${file}`, root), JSON.stringify(metafile));
const inputs = [...built, ...Object.values(clients)].flatMap(({ metafile }) => Object.keys(metafile.inputs));
writeFileSync(new URL('dist/THIRD-PARTY-LICENSES.txt', root), licences(fileURLToPath(root), inputs));
// The program runs as well without; what it prints while it is tried is nobody's concern.
spawnSync(process.execPath, [fileURLToPath(new URL('compiled.mjs', import.meta.url))], {
  stdio: ['ignore', 'ignore', 'inherit'],
});
