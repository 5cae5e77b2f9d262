/** A window for the tests of a file; the screen is stored when a test fails. */
import { afterAll, afterEach, beforeAll } from 'vitest';
import { Workbench, type Files } from './workbench.ts';

export function useWorkbench(files: Files): () => Workbench {
  let workbench: Workbench | undefined;
  beforeAll(async () => {
    workbench = await Workbench.open(files);
  });
  afterEach(async ({ task }) => {
    if (task.result?.state === 'fail') await workbench?.picture(`failed ${task.name}`);
  });
  afterAll(() => workbench?.close());
  return () => workbench!;
}
