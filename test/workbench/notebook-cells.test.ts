/** What can be done in the cells of a notebook, as in the text, and what stands below them. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, expect, test } from 'vitest';
import { LIMITS, MACHINE } from '../support/log.ts';
import { example } from './editor/example.ts';
import { useNotebook } from './editor/notebook.ts';
import { useWorkbench } from './editor/use.ts';

const SAFE = 'checks: make safe\ndone: [eyewear, covers, extraction, cooling, fire watch]\n';
const ROUND = 'marks: M2\nshots: {near: 1.5 right 2.0 down, far: 6.0 right 5.5 down}\n';
const LOG = [MACHINE, LIMITS, SAFE, 'marks: M1\nshots: centre\n', ROUND].join('---\n');
const FULL = example('1-full-service.alignbook.yaml');
const workbench = useWorkbench({
  'mistyped.alignbook.yaml': `${LOG}tape: fresh\n`,
  'step.alignbook.yaml': LOG,
  'views.alignbook.yaml': `${LOG}---\nadjust: M9\nlock: tight\n`,
  'full.alignbook.yaml': FULL,
});
const page = () => workbench().page;
const { output, open, close, type, toThe, focused, quickFix } = useNotebook(workbench);
/** Whatever the test before left open. */
beforeEach(async () => {
  if (await page().locator('.part.panel').isVisible()) await page().keyboard.press('Control+J');
  await workbench().command('View: Close All Editors');
  const refuse = page().getByRole('button', { name: "Don't Save" });
  await expect
    .poll(async () => {
      if (await refuse.isVisible()) await refuse.click();
      return page().locator('.tabs-container .tab').count();
    })
    .toBe(0);
});
const problems = (text: string) =>
  page().locator('.markers-panel .monaco-list-row').filter({ hasText: text }).filter({ hasNotText: 'alignbook.yaml' });

test('a mistyped mark is underlined in its cell and reported once; a quick fix there mends it', async () => {
  await open('mistyped.alignbook.yaml');
  await type('tape: fresh', 'x');
  await page().locator('.notebook-editor:visible .squiggly-error').first().waitFor();
  await workbench().command('View: Focus Problems');
  await problems('freshx').first().waitFor();
  await workbench().picture('notebook finding');
  expect(await problems('freshx').count()).toBe(1);
  await quickFix('freshx', '`fresh`');
  await expect.poll(() => problems('freshx').count()).toBe(0);
  expect(await workbench().saved('mistyped.alignbook.yaml')).toBe(`${LOG}tape: fresh\n`);
  await close();
});

test('logging a step shows its cell, with the cursor in the first blank; Tab goes to the next', async () => {
  await open('step.alignbook.yaml');
  await toThe('Home');
  await workbench().command('Alignbook: Log Step');
  await page().locator('.quick-input-list .monaco-list-row').last().click();
  await focused().filter({ hasText: 'near:' }).waitFor();
  await page().locator('.notebook-editor:visible .focused .snippet-placeholder').first().waitFor({ state: 'attached' });
  await page().keyboard.type('1 left');
  await page().keyboard.press('Tab');
  await page().keyboard.type('2 up');
  await workbench().picture('notebook step');
  const text = await workbench().saved('step.alignbook.yaml');
  expect(text.startsWith(LOG)).toBe(true);
  expect(text.slice(LOG.length)).toMatch(/near: 1 left\n.*far: 2 up\n$/s);
  await close();
});

test('a cell is added with the list of its kinds', async () => {
  await open('full.alignbook.yaml');
  await page().locator('.notebook-toolbar-container').getByText('Cell', { exact: true }).click();
  await page().locator('.suggest-widget.visible').getByText('marks').first().waitFor();
  await page().keyboard.press('Escape');
  await workbench().picture('notebook toolbar');
  await close();
});

test('outputs that were cleared are drawn again, and running draws them too', async () => {
  await open('full.alignbook.yaml');
  await output().locator('svg[aria-label^="Beam path"]').first().waitFor();
  await workbench().command('Notebook: Clear All Outputs');
  await output().locator('svg[aria-label^="Beam path"]').first().waitFor();
  await page().locator('.notebook-toolbar-container').getByText('Run All').click();
  await output().locator('svg[aria-label^="Beam path"]').first().waitFor();
  expect(await page().locator('.quick-input-widget').isVisible()).toBe(false);
  expect(await page().locator('.tab.dirty').count()).toBe(0);
  await close();
});

test('findings stay when the view changes, and stand there once', async () => {
  await workbench().show('views.alignbook.yaml');
  await workbench().command('View: Focus Problems');
  await expect.poll(() => problems('M9').count()).toBe(1);
  for (let turn = 0; turn < 4; turn++) {
    await workbench().command('Alignbook: Show as Notebook');
    await page().locator('.notebook-editor:visible .cell.code:visible').first().waitFor();
    await expect.poll(() => problems('M9').count()).toBe(1);
    await workbench().command('Alignbook: Show as Text');
    await workbench().editor.locator('.view-line').first().waitFor();
    await expect.poll(() => page().locator('.notebook-editor:visible').count()).toBe(0);
    // The editor asks about files that have no tab every two seconds.
    await page().waitForTimeout(2500);
    await expect.poll(() => problems('M9').count()).toBe(1);
  }
  await workbench().command('View: Close Editor');
});

test('a new workbook is saved first, then shown; its findings are there once', async () => {
  await workbench().command('Alignbook: Create a Workbook');
  await workbench().answer('What is the name of the machine', 'heron');
  await workbench().pick('As you stand in front of the machine', 'beam leaves to the left');
  await workbench().pick('Which unit do you measure in?', 'Millimetres');
  await workbench().answer('How far does the head travel', '900 600');
  await workbench().pick('How many screws', 'Three');
  await workbench().pick('As you face the screw heads', 'Not known');
  await workbench().pick('Do the screws have lock nuts?', 'Not known');
  await workbench().answer('Is there a nozzle', 'none');
  await workbench().answer('How far may the beam tilt', 'none');
  await workbench().tab('heron.alignbook.yaml').waitFor();
  await workbench().editor.locator('.view-line').first().waitFor();
  await page().keyboard.press('Control+End');
  await workbench().type('adjust: M9');
  await workbench().command('View: Focus Problems');
  await expect.poll(() => problems('two kinds').count()).toBe(1);
  await workbench().editor.locator('.view-line').last().click();
  await workbench().command('Alignbook: Show as Notebook');
  await page().locator('.notebook-editor:visible .cell.code:visible').first().waitFor();
  expect(readFileSync(join(workbench().folder, 'heron.alignbook.yaml'), 'utf8')).toContain('adjust: M9');
  await expect.poll(() => problems('two kinds').count()).toBe(1);
  await page().waitForTimeout(5000);
  await workbench().picture('notebook new');
  expect(await problems('two kinds').count()).toBe(1);
});

test.each(['dark', 'light'] as const)('what stands below the cells: %s', { timeout: 180_000 }, async (theme) => {
  await workbench().settings(theme);
  for (const [width, height] of [
    [1400, 900],
    [1000, 700],
  ] as const) {
    await page().setViewportSize({ width, height });
    await open('full.alignbook.yaml');
    await output().locator('.sheet').first().waitFor({ state: 'attached' });
    await toThe('Home');
    for (let k = 1; k < 9; k++) {
      for (let n = 0; n < 3; n++) await page().keyboard.press('ArrowDown');
      await page().waitForTimeout(700);
      if (k === 1 || k % 2 === 0) await workbench().picture(`below ${theme} ${width} ${String(k).padStart(2, '0')}`);
    }
    await close();
  }
  await page().setViewportSize({ width: 1400, height: 900 });
});
