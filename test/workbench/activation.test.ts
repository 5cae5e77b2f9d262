/** The activation time in the editor's own report: for information, because it depends on this machine as much. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { example } from './editor/example.ts';
import { useWorkbench } from './editor/use.ts';

const BOOK = '3-unknown-mount.alignbook.yaml';
const GOAL = 150;
const workbench = useWorkbench({ 'notes.md': '' });

test('the editor reports that a workbook activates the extension, and nothing before', async () => {
  const row = workbench().page.locator('.runtime-extensions-editor .monaco-list-row').filter({ hasText: 'Alignbook' });
  await workbench().command('Developer: Show Running Extensions');
  await workbench().page.locator('.runtime-extensions-editor .monaco-list-row').first().waitFor();
  expect(await row.count()).toBe(0);
  writeFileSync(join(workbench().folder, BOOK), example(BOOK));
  await workbench().show(BOOK);
  await workbench().statusItem('Alignbook workbook').waitFor();
  await workbench().command('Developer: Show Running Extensions');
  await expect.poll(() => row.textContent()).toMatch(/Activation.*\d+ms/);
  const took = Number(/(\d+)ms/.exec((await row.textContent())!)![1]);
  console.log(
    `activated in ${took} ms (wanted: under ${GOAL} ms)${took < GOAL ? '' : ': slower than wanted, if this machine has nothing else to do'}`,
  );
});
