/** From the walkthrough to a released visit and its record, with nothing but what the screen offers. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { useWorkbench } from './editor/use.ts';

const NAME = 'heron.alignbook.yaml';
/** Rounds of shots after which somebody would give up: every mark is in the middle. */
const MOST = 12;
const workbench = useWorkbench({ 'README.md': '' });
const page = () => workbench().page;
const onDisk = () => readFileSync(join(workbench().folder, NAME), 'utf8');
const shown = () => page().frameLocator('iframe.webview.ready').frameLocator('#active-frame');

test('the walkthrough begins a workbook', async () => {
  const offered = page()
    .locator('.quick-input-list .monaco-list-row')
    .filter({ hasText: 'The first workbook' })
    .first();
  // The editor takes its time to know what extensions bring.
  await expect
    .poll(
      async () => {
        await workbench().command('Welcome: Open Walkthrough');
        return offered.waitFor({ timeout: 2000 }).then(
          () => true,
          () => false,
        );
      },
      { timeout: 25_000 },
    )
    .toBe(true);
  await offered.click();
  await page().getByText('Make it safe').first().waitFor();
  const cautions = shown().getByText('The beam is invisible').first();
  // Opened at the first step that is not done, and another window may have done some.
  await expect
    .poll(
      async () => {
        const isThere = await cautions.waitFor({ timeout: 3000 }).then(
          () => true,
          () => false,
        );
        if (!isThere) await page().locator('.getting-started-step', { hasText: 'Make it safe' }).first().click();
        return isThere;
      },
      { timeout: 20_000 },
    )
    .toBe(true);
  await workbench().picture('walkthrough');
  await page()
    .getByRole('button', { name: /Describe the machine/ })
    .first()
    .click();
  await shown().locator('svg[role="img"]').waitFor();
  await workbench().picture('walkthrough create');
  await page().getByRole('button', { name: 'Create a workbook' }).first().click();
  await workbench().answer('What is the name of the machine', 'heron');
  await workbench().pick('As you stand in front of the machine', 'beam leaves to the left');
  await workbench().pick('Which unit do you measure in?', 'Millimetres');
  await workbench().answer('How far does the head travel', '900 x 600');
  await workbench().pick('How many screws', 'Three');
  await workbench().statusItem('next: shoot M1').waitFor();
  expect(await workbench().saved(NAME)).toMatch(/checks: make safe\nopen:\n/);
});

test('shot after shot, as the status bar advises, until it is released', async () => {
  for (let round = 0; round < MOST; round++) {
    const status = workbench().statusItem(/next: |within: .*sign off/);
    await status.waitFor();
    const before = onDisk();
    await status.click();
    const steps = page().locator('.quick-input-list .monaco-list-row');
    await steps.first().waitFor();
    const step = await steps.last().textContent();
    await steps.last().click();
    await expect.poll(() => page().locator('.tab.dirty').count()).toBe(1);
    if (/sign off/i.test(step!)) break;
    const added = (await workbench().saved(NAME)).slice(before.length);
    for (let blank = (added.match(/: ?(?=[,}\n]|$)/gm) ?? []).filter((one) => one !== ':').length; blank > 0; blank--) {
      await workbench().type('centre');
      await workbench().closeSuggestions();
      await page().keyboard.press('Tab');
    }
    await workbench().saved(NAME);
    if (round === 0) await mend('Log the open checks as done, if they were done');
  }
  await workbench().type('jv');
  const text = await workbench().saved(NAME);
  expect(text).toMatch(/release: in service\nby: jv\n?$/);
  await workbench().picture('released');
});

test('the record states the release', async () => {
  await workbench().command('Alignbook: Show Record');
  await shown().getByText('Every station with limits was within limits').first().waitFor();
  await shown().getByText('Released to service').first().waitFor();
  await workbench().picture('record');
});

/** The quick fix of this name, at the first warning. */
async function mend(title: string): Promise<void> {
  await page().keyboard.press('Control+Home');
  await page().keyboard.press('F8');
  await workbench().quickFix(title);
  await expect.poll(() => page().locator('.tab.dirty').count()).toBe(1);
  await workbench().saved(NAME);
}
