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
  await workbench().pick('As you face the screw heads', 'Not known');
  await workbench().pick('Do the screws have lock nuts?', 'Not known');
  await workbench().answer('Is there a nozzle', 'none');
  await workbench().answer('How far may the beam tilt', 'none');
  await workbench()
    .statusItem(/Make safe \(\d open\)/)
    .waitFor();
  expect(await workbench().saved(NAME)).toMatch(/checks: make safe\nopen:\n/);
});

test('shot after shot, as the status bar advises, until it is released', async () => {
  for (let round = 0; round < MOST; round++) {
    const status = workbench().statusItem(/Shoot |Make safe|Tighten |Loosen |M\d: |Within: .*sign off/);
    await status.waitFor();
    const before = onDisk();
    const isSignOff = /sign off/.test((await status.textContent())!);
    await status.click();
    // One step is logged at once; of several the last one done is chosen.
    const steps = page().locator('.quick-input-list .monaco-list-row').filter({ visible: true });
    const changed = page().locator('.tab.dirty');
    await steps.or(changed).first().waitFor();
    if ((await steps.count()) > 0) await steps.last().click();
    await expect.poll(() => changed.count()).toBe(1);
    if (isSignOff) break;
    const added = (await workbench().saved(NAME)).slice(before.length);
    for (let blank = (added.match(/: ?(?=[,}\n]|$)/gm) ?? []).filter((one) => one !== ':').length; blank > 0; blank--) {
      await workbench().type('centre');
      await workbench().closeSuggestions();
      await page().keyboard.press('Tab');
    }
    await workbench().saved(NAME);
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
