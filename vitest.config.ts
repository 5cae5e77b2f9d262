import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    projects: [
      { test: { name: 'unit', isolate: false, include: ['test/{model,cells,optics,statistics,workbook,alignment,drawing,language}/**/*.test.ts'] } },
      { test: { name: 'program', include: ['test/{cli,examples}/**/*.test.ts'], testTimeout: 30_000 } },
      { test: { name: 'server', include: ['test/server/**/*.test.ts'], testTimeout: 120_000 } },
      { test: { name: 'published', include: ['test/published/**/*.test.ts'] } },
      { test: { name: 'simulation', include: ['test/simulation/**/*.test.ts'], testTimeout: 120_000 } },
      { test: { name: 'house', include: ['test/house/**/*.test.ts'] } },
    ],
  },
});
