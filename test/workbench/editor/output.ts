/** Where pictures and logs of a run are kept, for a person to look at. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT } from '../../house/layers.ts';

export const OUTPUT = join(ROOT, 'test', 'output', 'workbench');
mkdirSync(OUTPUT, { recursive: true });
