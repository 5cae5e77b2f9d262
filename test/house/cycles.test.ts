/**
 * No file is imported by what it imports, types included: each can be read, and moved, without another that needs it
 * first.
 */
import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { ROOT } from './layers.ts';

interface Checked {
  readonly summary: { readonly unchanged: number };
  readonly diagnostics: readonly {
    readonly location: { readonly path: string; readonly start: { readonly line: number } };
  }[];
}

/** By the linter's rule, with the options of `biome.json`. */
function checked(root: string): Checked {
  const { stdout } = spawnSync(
    process.execPath,
    [
      join(ROOT, 'node_modules', '@biomejs', 'biome', 'bin', 'biome'),
      'lint',
      '--only=suspicious/noImportCycles',
      '--max-diagnostics=none',
      '--reporter=json',
      'src',
      'shared',
    ],
    { cwd: root, encoding: 'utf8', maxBuffer: 1e8 },
  );
  return JSON.parse(stdout) as Checked;
}

test('no import cycles in src and shared', () => {
  const { summary, diagnostics } = checked(ROOT);
  expect(diagnostics.map(({ location: { path, start } }) => `${path}:${start.line}`)).toEqual([]);
  expect(summary.unchanged).toBeGreaterThan(300);
  console.log(`${summary.unchanged} files, ${diagnostics.length} imports in a cycle`);
});

test('a cycle of types alone is one', () => {
  const root = mkdtempSync(join(tmpdir(), 'alignbook-'));
  for (const file of ['biome.json', '.gitignore']) copyFileSync(join(ROOT, file), join(root, file));
  for (const folder of ['src', 'shared']) mkdirSync(join(root, folder));
  const importing = (name: string, other: string) =>
    writeFileSync(
      join(root, 'src', `${name}.ts`),
      `import type { ${other} } from './${other}.ts';\nexport interface ${name} {\n  readonly other?: ${other};\n}\n`,
    );
  importing('one', 'two');
  importing('two', 'one');
  expect(checked(root).diagnostics.map(({ location }) => location.path)).toEqual(['src/one.ts', 'src/two.ts']);
  rmSync(root, { recursive: true });
});
