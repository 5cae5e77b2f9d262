/** A record is not saved onto the workbook, whatever leads there. */
import { copyFileSync, linkSync, symlinkSync, utimesSync } from 'node:fs';
import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import type { FileStat, Uri } from 'vscode';
import { isSameFile } from '../../src/extension/record/same-file.ts';
import { folder } from '../cli/terminal.ts';

const place = folder();
afterAll(() => place.remove());
const workbook = place.file('w.alignbook.yaml', 'note: a\n');
const at = (name: string) => join(place.path, name);
symlinkSync(workbook, at('link.html'));
linkSync(workbook, at('hard.html'));
copyFileSync(workbook, at('copy.html'));
utimesSync(at('copy.html'), 1, 1);

/** As the editor tells of a file on the disk. */
async function statOf({ fsPath }: Uri): Promise<FileStat> {
  const { size, mtimeMs, birthtimeMs } = await stat(fsPath);
  return { type: 1, size, mtime: Math.floor(mtimeMs), ctime: Math.floor(birthtimeMs) };
}

test.each([
  ['its own name', 'w.alignbook.yaml', true],
  ['a symbolic link to it', 'link.html', true],
  ['a hard link to it', 'hard.html', true],
  ['a file of the same size', 'copy.html', false],
  ['a name that is free', 'new.html', false],
])('%s', async (_, name, same) => {
  expect(await isSameFile({ fsPath: at(name) } as Uri, { fsPath: workbook } as Uri, statOf)).toBe(same);
});
