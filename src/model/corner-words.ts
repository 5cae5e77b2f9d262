/** Where a screw acts on the mirror, as you face the screw heads. */
import { lookup } from './lookup.ts';
import type { MountDescription } from './machine.ts';

/** `upper left`, `right`; undefined if the workbook does not give it, and for a screw at the centre. */
export function cornerOf({ screws }: Pick<MountDescription, 'screws'>, name: string): string | undefined {
  const written: MountDescription['screws'][string] | undefined = lookup(screws, name);
  if (!written?.right || !written.up) return undefined;
  return cornerAt(written.right.value, written.up.value);
}

/** Up to a quarter of the larger coordinate counts as centred. */
export function cornerAt(right: number, up: number): string | undefined {
  const small = Math.max(Math.abs(right), Math.abs(up)) / 4;
  const height = Math.abs(up) <= small ? '' : up > 0 ? 'upper' : 'lower';
  const side = Math.abs(right) <= small ? '' : right > 0 ? 'right' : 'left';
  return [height, side].filter(Boolean).join(' ') || undefined;
}
