import { defineConfig } from 'vitest/config';
import { LONGEST } from './test/support/amount.ts';

/** One suite, in the editor that is served to a browser and, where `VSCODE` says where it is, in the one of the desktop. */
const workbench = {
  include: ['test/workbench/*.test.ts'],
  // Two windows at once make each other late, and the tests of the server count its processes.
  fileParallelism: false,
  // Bounds against hanging only: a window that starts cold on a busy machine takes half a minute to its first command.
  testTimeout: 90_000,
  hookTimeout: 90_000,
  expect: { poll: { timeout: 20_000 } },
};

/** Figures are components of this library; none of the browser is needed for a picture. */
const oxc = { jsx: { runtime: 'automatic', importSource: 'preact' } } as const;

export default defineConfig({
  oxc,
  test: {
    projects: [
      {
        test: {
          name: 'unit',
          // One process that loads every module once: a second one would load them again, at a third of the whole.
          isolate: false,
          maxWorkers: 1,
          testTimeout: 20_000,
          include: [
            'test/{model,cells,optics,simulator,statistics,light,words,machine,workbook,drawing,language,record,create,syntaxes,extension}/**/*.test.ts',
          ],
        },
      },
      {
        test: {
          name: 'logs',
          isolate: false,
          maxWorkers: 1,
          testTimeout: 20_000,
          include: ['test/{estimate,verdict,plan,advice,rules,evaluation,history}/**/*.test.ts'],
        },
      },
      { test: { name: 'program', include: ['test/{cli,examples}/**/*.test.ts'], testTimeout: 30_000 } },
      { test: { name: 'server', include: ['test/server/**/*.test.ts'], testTimeout: 120_000 } },
      { test: { name: 'deep', isolate: false, testTimeout: LONGEST, include: ['test/deep/*.test.ts'] } },
      { test: { name: 'page', fileParallelism: false, testTimeout: 120_000, include: ['test/preview/**/*.test.ts'] } },
      { test: { name: 'published', include: ['test/published/**/*.test.ts'] } },
      { test: { name: 'simulation', include: ['test/simulation/**/*.test.ts'], testTimeout: 120_000 } },
      { test: { name: 'neovim', include: ['test/neovim/*.test.ts'] } },
      { test: { name: 'workbench', ...workbench, globalSetup: 'test/workbench/editor/served.ts' } },
      {
        test: {
          ...workbench,
          name: 'web',
          include: ['test/workbench/web/*.test.ts'],
          globalSetup: 'test/workbench/editor/web.ts',
        },
      },
      ...(process.env['VSCODE'] === undefined
        ? []
        : [{ test: { name: 'desktop', ...workbench, globalSetup: 'test/workbench/editor/desktop.ts' } }]),
      { test: { name: 'house', testTimeout: 30_000, include: ['test/house/**/*.test.ts'] } },
    ],
  },
});
