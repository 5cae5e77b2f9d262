/** The name of a machine as the format takes it, from whatever people call it. */

/** `title` is there where it differs from the name. */
export interface MachineName {
  readonly name: string;
  readonly title?: string;
}

/** Longer names are no names of files. */
const LONGEST = 80;

/** `Workshop-2` gives the name `Workshop_2` and the title as it was typed. Undefined if no letter can come first. */
export function readName(text: string): MachineName | undefined {
  const title = text.replaceAll(/[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}\s]+/gu, ' ').trim();
  const name = title
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .replace(/[^A-Za-z0-9]+/g, '_')
    .replace(/^_|_$/g, '');
  if (!/^[A-Za-z]/.test(name) || title.length > LONGEST) return undefined;
  return /^[A-Za-z][A-Za-z0-9_]*$/.test(title) ? { name: title } : { name, title };
}
