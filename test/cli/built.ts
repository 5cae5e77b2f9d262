/** The command line as it ships, bundled from its sources: what only a process has is tried with it. */
import { build } from 'esbuild';

const PARTS = { alignbook: 'main', program: 'program', expressions: 'expressions', files: 'files' };

/** Makes `alignbook.cjs`, which Node runs, and what it loads from beside it. */
export async function builtInto(folder: string): Promise<void> {
  await build({
    entryPoints: Object.fromEntries(
      Object.entries(PARTS).map(([to, from]) => [to, new URL(`../../src/cli/${from}.ts`, import.meta.url).pathname]),
    ),
    external: ['./program.cjs', './expressions.cjs', './files.cjs', './server.cjs'],
    outdir: folder,
    outExtension: { '.js': '.cjs' },
    bundle: true,
    platform: 'node',
    format: 'cjs',
    target: 'node20',
    define: { ALIGNBOOK_VERSION: '"1.2.3"' },
  });
}
