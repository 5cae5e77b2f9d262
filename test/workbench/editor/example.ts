import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT } from '../../house/layers.ts';

/** The text of one of the examples. */
export function example(file: string): string {
  return readFileSync(join(ROOT, 'examples', file), 'utf8');
}
