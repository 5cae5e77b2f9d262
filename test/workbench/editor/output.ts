/** The folder of a run's pictures and logs, for a person to look at. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT } from '../../house/layers.ts';

export const OUTPUT = join(ROOT, 'test', 'output', 'workbench');
mkdirSync(OUTPUT, { recursive: true });
