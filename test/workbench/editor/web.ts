/**
 * The workbench of the browser without the extension: it lies beside the workbench's own files, under `PLACE`, to be
 * installed from there as an extension of the browser. Only such a one may start workers.
 */
import { rmSync, symlinkSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { TestProject } from 'vitest/node';
import { ROOT } from '../../house/layers.ts';
import { serve } from './served.ts';

export const PLACE = 'alignbook';

export default function serveBeside(project: TestProject): Promise<() => Promise<void>> {
  return serve(project, (main) => {
    const link = join(dirname(main), '..', PLACE);
    rmSync(link, { force: true });
    symlinkSync(ROOT, link);
  });
}
