// Bundles what ships. Kept to this one thing, because `npm ci` runs it; it never deletes `dist` first, so that a
// failed build leaves the last good one in place.
import { readFileSync, writeFileSync, mkdirSync } from 'node:fs';
import { build } from 'esbuild';

const root = new URL('..', import.meta.url);
const { version } = JSON.parse(readFileSync(new URL('package.json', root), 'utf8'));

await bundle('meta.json', {
  entryPoints: { alignbook: 'src/cli/main.ts', program: 'src/cli/program.ts', expressions: 'src/cli/expressions.ts' },
  external: ['./program.cjs', './expressions.cjs'],
});
await bundle('extension.meta.json', {
  entryPoints: { extension: 'src/extension/main.ts' },
  // The editor's own module: it is there when the editor loads the extension, and nowhere else.
  external: ['vscode'],
});
await bundle('extension.web.meta.json', {
  entryPoints: { 'extension.web': 'src/extension/web.ts' },
  external: ['vscode'],
  platform: 'browser',
  target: 'es2023',
});

async function bundle(metafile, options) {
  const result = await build({
    absWorkingDir: new URL('.', root).pathname,
    outdir: 'dist',
    outExtension: { '.js': '.cjs' },
    bundle: true,
    platform: 'node',
    format: 'cjs',
    // What ships runs on the oldest Node that is supported, whatever built it.
    target: 'node20',
    minify: true,
    legalComments: 'none',
    define: { ALIGNBOOK_VERSION: JSON.stringify(version) },
    metafile: true,
    logLevel: 'warning',
    ...options,
  });
  mkdirSync(new URL('dist', root), { recursive: true });
  writeFileSync(new URL(`dist/${metafile}`, root), JSON.stringify(result.metafile));
}
