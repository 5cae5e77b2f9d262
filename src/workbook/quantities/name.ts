/** User-defined names. */
import { problem, quoted, read, refuse, type Reading } from './reading.ts';

const NAME = /^[A-Za-z][A-Za-z0-9_]*$/;
const LONGEST_NAME = 100;

/**
 * A name of an element, mount, screw or stop. Problems: `name.unreadable`, with a fix where blanks or dashes spoil it.
 */
export function readName(text: string): Reading<string> {
  const name = text.trim();
  if (name.length <= LONGEST_NAME && NAME.test(name)) return read(name);
  const mended = name.length > LONGEST_NAME ? '' : name.replace(/[\s.-]+/g, '_');
  const fix = NAME.test(mended) ? mended : undefined;
  return refuse(problem('name.unreadable', 0, text.length, { name: quoted(name) }, fix));
}
