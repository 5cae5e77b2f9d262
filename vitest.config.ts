import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    projects: [
      { test: { name: 'unit', isolate: false, include: ['test/{model,cells,optics,statistics,workbook,alignment,syntaxes,extension}/**/*.test.ts'] } },
      { test: { name: 'program', include: ['test/{cli,examples}/**/*.test.ts'], testTimeout: 30_000 } },
      { test: { name: 'published', include: ['test/published/**/*.test.ts'] } },
      { test: { name: 'simulation', include: ['test/simulation/**/*.test.ts'], testTimeout: 120_000 } },
      { test: { name: 'workbench', include: ['test/workbench/*.test.ts'], globalSetup: 'test/workbench/editor/serve.ts', fileParallelism: false, testTimeout: 30_000, hookTimeout: 90_000 } },
      { test: { name: 'house', include: ['test/house/**/*.test.ts'] } },
    ],
  },
});
