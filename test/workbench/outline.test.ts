/** The outline by visits, with breadcrumbs, sticky lines and workspace symbols. */
import { expect, test } from 'vitest';
import { example } from './editor/example.ts';
import { useWorkbench } from './editor/use.ts';

const BOOK = '1-full-service.alignbook.yaml';
const workbench = useWorkbench({ [BOOK]: example(BOOK) });
const page = () => workbench().page;
const lines = () => page().locator('.outline-tree .monaco-list-row');
const texts = async () => (await lines().allTextContents()).map((text) => text.replace(/\s+/g, ' ').trim());

test('visits come first, in them as found and each move with the marks that followed', async () => {
  await workbench().show(BOOK);
  await workbench()
    .statusItem(/within/i)
    .waitFor();
  await page().locator('.pane-header').filter({ hasText: 'Outline' }).click();
  // The files make room for it.
  await page().locator('.pane-header').first().click();
  await lines().filter({ hasText: 'as found' }).waitFor();
  await page().locator('.pane-header').filter({ hasText: 'Outline' }).hover();
  await workbench().picture('outline by visits');
  const shown = await texts();
  console.log(shown);
  expect(shown.slice(0, 3)).toEqual([
    'machine dory',
    expect.stringMatching(/^limits /) as string,
    'spring service2026-03-07, released, within',
  ]);
  expect(shown).toContainEqual(expect.stringMatching(/^as foundM1, M2/) as string);
  expect(shown).toContainEqual(expect.stringMatching(/^M1: [ABC] (in|out) .*M2/) as string);
});

test('breadcrumbs and sticky lines lead to the visit', async () => {
  await workbench().goTo(120);
  await page()
    .locator('.breadcrumbs-control .breadcrumb-item, .breadcrumbs-below-tabs .monaco-breadcrumb-item')
    .filter({ hasText: 'spring service' })
    .waitFor();
  await page()
    .locator('.sticky-widget .sticky-line-content')
    .filter({ hasText: /session:\sspring/ })
    .waitFor();
  await workbench().picture('outline breadcrumbs');
});

test('a cell is found by its name in the whole folder', async () => {
  await page().keyboard.press('Control+T');
  await page().locator('.quick-input-widget input').fill('#marks lens');
  await page().locator('.quick-input-list .monaco-list-row').filter({ hasText: 'marks lens' }).first().waitFor();
  await page().keyboard.press('Escape');
});
