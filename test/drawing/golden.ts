/** A picture as last checked by eye; `UPDATE=1` rewrites it. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { expect } from 'vitest';

const FOLDER = new URL('goldens/', import.meta.url);

export function golden(name: string, svg: string): void {
  const file = new URL(`${name.replace(/\W+/g, '-')}.svg`, FOLDER);
  const text = `${svg.replaceAll('><', '>\n<')}\n`;
  if (process.env['UPDATE']) {
    mkdirSync(FOLDER, { recursive: true });
    writeFileSync(file, text);
  }
  expect(text).toBe(readFileSync(file, 'utf8'));
}
