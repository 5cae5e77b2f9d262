/** What stands below the cells of a notebook, and what can be done in them as in the text. */
import { expect, test } from 'vitest';
import { example } from './editor/example.ts';
import { useWorkbench } from './editor/use.ts';

const FILES = {
  'full.alignbook.yaml': example('1-full-service.alignbook.yaml'),
  'year.alignbook.yaml': example('6-through-the-year.alignbook.yaml'),
};
const workbench = useWorkbench(FILES);
const page = () => workbench().page;
const output = () =>
  page().frameLocator('iframe.webview.ready[src*="purpose=notebookRenderer"]').frameLocator('#active-frame');

test('look', async () => {
  await workbench().show('full.alignbook.yaml');
  await workbench().command('Alignbook: Show as Notebook');
  await output().locator('.sheet').first().waitFor({ state: 'attached' });
  await page().waitForTimeout(4000);
  await workbench().picture('cells 0');
  console.log(await page().locator('.notebook-toolbar-container .action-label').allTextContents());
  await page()
    .locator('.notebook-toolbar-container')
    .getByText('Run All')
    .click({ timeout: 3000 })
    .catch((e) => console.log(String(e).slice(0, 200)));
  await page().waitForTimeout(2000);
  await workbench().picture('cells run');
  await page().keyboard.press('Escape');
  await page()
    .locator('.notebook-editor:visible .cell-list-container')
    .click({ position: { x: 4, y: 4 } });
  await page().keyboard.press('Escape');
  for (let k = 1; k < 12; k++) {
    for (let n = 0; n < 3; n++) await page().keyboard.press('ArrowDown');
    await page().waitForTimeout(1200);
    await workbench().picture(`cells ${k}`);
  }
  expect(1).toBe(1);
});
