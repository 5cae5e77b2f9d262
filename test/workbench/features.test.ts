/** Writing with the server's help: completion, fixes, names, outline, links of what is clicked. */
import { expect, test } from 'vitest';
import { LIMITS, MACHINE } from '../support/log.ts';
import { useWorkbench } from './editor/use.ts';

const LOG = [
  MACHINE,
  LIMITS,
  'session: spring service\ndat: 2026-03-07\n',
  'marks: M1\nshots: centre\n',
  'marks: M2\nshots: {near: centre, far: centre}\n',
].join('---\n');
const FILES = {
  'completed.alignbook.yaml': LOG,
  'mended.alignbook.yaml': LOG,
  'renamed.alignbook.yaml': LOG,
  'stepped.alignbook.yaml': LOG.replace('dat:', 'date:'),
};
const workbench = useWorkbench(FILES);
const page = () => workbench().page;

async function accept(label: string): Promise<void> {
  await page().locator('.suggest-widget .monaco-list-row.focused').filter({ hasText: label }).waitFor();
  await page().keyboard.press('Enter');
}

test('completion knows what may stand here', async () => {
  await workbench().show('completed.alignbook.yaml');
  await workbench().editor.locator('.squiggly-error').first().waitFor();
  await page().keyboard.press('Control+End');
  await workbench().type('---\n', 'adj');
  await accept('adjust');
  await workbench().type('M');
  await accept('M1');
  expect((await workbench().saved('completed.alignbook.yaml')).slice(LOG.length)).toMatch(/^---\nadjust: M1\n/);
});

test('one key fixes a slip', async () => {
  await workbench().show('mended.alignbook.yaml');
  await workbench().editor.locator('.squiggly-error').first().waitFor();
  await workbench().goTo(LOG.split('\n').indexOf('dat: 2026-03-07') + 1);
  await workbench().quickFix('Write `date`');
  await expect.poll(() => workbench().saved('mended.alignbook.yaml')).toBe(LOG.replace('dat:', 'date:'));
});

test('a name is changed everywhere at once', async () => {
  await workbench().show('renamed.alignbook.yaml');
  // On a busy machine the key may come before the box takes it: then nothing has happened yet.
  await expect
    .poll(
      async () => {
        if ((await workbench().saved('renamed.alignbook.yaml')) === LOG) {
          await workbench().goTo(LOG.split('\n').indexOf('marks: M2') + 1, 8);
          await page().keyboard.press('F2');
          const box = page().locator('.rename-box input');
          await box.fill('bridge');
          // Not to the page: where the box has lost the focus, that would begin a line in the text.
          await box.press('Enter');
        }
        return workbench().saved('renamed.alignbook.yaml');
      },
      { timeout: 20_000 },
    )
    .toBe(LOG.replaceAll('M2', 'bridge'));
});

test('the outline lists the cells', async () => {
  await workbench().show('renamed.alignbook.yaml');
  await workbench().command('Explorer: Focus on Outline View');
  const rows = page().locator('.outline-tree .monaco-list-row');
  await expect
    .poll(async () => (await rows.allTextContents()).join('\n'))
    .toMatch(/machine wren[^]*spring service[^]*as foundM1, bridge/);
  await workbench().picture('outline');
});

test('the link above the last cell logs the step', async () => {
  await workbench().show('stepped.alignbook.yaml');
  await page().keyboard.press('Control+End');
  await workbench().editor.locator('.codelens-decoration a').first().click();
  await workbench()
    .line(/^marks:/)
    .nth(2)
    .waitFor();
  await workbench().type('centre');
  await workbench()
    .line(/410.mm,.mark:.centre/)
    .waitFor();
});
