// Writes anew what is generated: case markers, goldens, the schema, the grammar, words for translators, findings.md and
// the documents. Each is written by the test that compares it, and only there; none is deleted first. Pictures of the
// editor are apart: they need a browser (`DEVELOPERS.md`).
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
/** The documents show what the program prints, which includes what the first step writes. */
const STEPS = [
  ['.ci/bundle.mjs'],
  [
    'node_modules/vitest/vitest.mjs',
    'run',
    '--project',
    'unit',
    'test/workbook/cases',
    'test/workbook/published',
    'test/syntaxes',
    'test/extension/words',
    'test/language/findings',
    'test/drawing',
  ],
  ['node_modules/vitest/vitest.mjs', 'run', '--project', 'house', 'test/house/documents'],
];

for (const step of STEPS) {
  const { status } = spawnSync(process.execPath, step, {
    cwd: root,
    stdio: 'inherit',
    env: { ...process.env, UPDATE: '1' },
  });
  if (status !== 0) process.exit(status ?? 1);
}
