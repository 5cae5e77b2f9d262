/** The panel as a person uses it: mouse, keys, and what stands in the file afterwards. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { LIMITS, MACHINE } from '../support/log.ts';
import { keepsNobodyOut } from './editor/access.ts';
import { useWorkbench } from './editor/use.ts';

const ROUND = 'marks: M2\nshots: {near: 1.5 right 2.0 down, far: 6.0 right 5.5 down}\n';
const LOG = [MACHINE, LIMITS, 'session: spring service\ndate: 2026-03-07\n', 'marks: M1\nshots: centre\n', ROUND].join(
  '---\n',
);
const NAME = 'targets.alignbook.yaml';
const OTHER = 'blank.alignbook.yaml';
const BLANK = LOG.replace(ROUND, 'marks: M2\nshots:\n  near: \n  far: \n').replaceAll('\n', '\r\n');
const RELEASED = 'released.alignbook.yaml';
const SIGNED = `${LOG}---\nrelease: in service\nby: jv\ndate: 2026-03-07\n`;
const UNSHOT = 'unshot.alignbook.yaml';
const BEFORE_M2 = LOG.replace(`---\n${ROUND}`, '');
const workbench = useWorkbench({ [NAME]: LOG, [OTHER]: BLANK, [RELEASED]: SIGNED, [UNSHOT]: BEFORE_M2 });
const page = () => workbench().page;
const panel = () => page().frameLocator('iframe.webview.ready').frameLocator('#active-frame');
const onDisk = (file: string) => readFileSync(join(workbench().folder, file), 'utf8');
const sentence = () => panel().locator('.sentence');
const shot = (name: RegExp) => panel().locator('.shot').filter({ hasText: name });

async function open(file: string): Promise<void> {
  // After a reload the panel has the focus, and a file would be opened in front of it.
  await page().keyboard.press('Control+1');
  await workbench().show(file);
  await workbench().command('Alignbook: Show Targets');
  await panel().locator('h1').filter({ hasText: file }).waitFor();
}

/** The centre of the aperture on the tape, and pixels a millimetre, from the ring of the limit: 2 mm. */
async function field(): Promise<{ x: number; y: number; per: number }> {
  const tape = (await panel().locator('.tape').boundingBox())!;
  const ring = (await panel().locator('.tape .limit').boundingBox())!;
  return { x: ring.x + ring.width / 2 - tape.x, y: ring.y + ring.height / 2 - tape.y, per: ring.width / 4 };
}

async function clickTape(right: number, up: number): Promise<void> {
  const { x, y, per } = await field();
  await panel()
    .locator('.tape')
    .click({ position: { x: x + right * per, y: y - up * per } });
}

/** Top of the tape in the page, pixels. */
const top = () =>
  panel()
    .locator('.tape')
    .evaluate((tape) => tape.getBoundingClientRect().top);

test('it opens beside the text, with the next step in one sentence and the target in question', async () => {
  await open(NAME);
  await sentence().getByText('M1: A out 5/16, B in 1/4').waitFor();
  expect(await panel().locator('.tape svg').first().getAttribute('aria-label')).toBe('Tape on M2, seen along the beam');
  await workbench().tab('Targets: targets').waitFor();
  await workbench().picture('panel');
});

test('it is offered above the last cell, too', async () => {
  await page().locator('.codelens-decoration a').filter({ hasText: 'Show Targets' }).first().waitFor();
});

test('another file that is opened while the panel has the focus does not cover it', async () => {
  await panel().locator('.tape').focus();
  const explorer = page().locator('.explorer-folders-view .monaco-list-row');
  await explorer.filter({ hasText: OTHER }).dblclick();
  await workbench().tab(OTHER).waitFor();
  await panel().locator('h1').filter({ hasText: OTHER }).waitFor();
  expect(await panel().locator('.tape').isVisible()).toBe(true);
  await explorer.filter({ hasText: NAME }).dblclick();
  await panel().locator('h1').filter({ hasText: NAME }).waitFor();
});

test('a mark that is clicked is selected in the text, and the mark under the cursor is the one that is ringed', async () => {
  await panel()
    .getByRole('button', { name: /gantry far from M1 \(front\): 6 right/ })
    .click();
  await workbench().statusItem('17 selected').or(workbench().statusItem('(18 selected)')).waitFor();
  await page().keyboard.type('none');
  expect(await workbench().saved(NAME)).toBe(LOG.replace('6.0 right 5.5 down', 'none'));
  await page().keyboard.press('Control+Z');
  expect(await workbench().saved(NAME)).toBe(LOG);
  const at = LOG.split('\n').findIndex((line) => line.startsWith('shots: {near: 1.5')) + 1;
  const pressed = (name: RegExp) => panel().getByRole('button', { name }).first().getAttribute('aria-pressed');
  await workbench().goTo(at, 16);
  await expect.poll(() => pressed(/^N gantry near/)).toBe('true');
  await workbench().goTo(at, LOG.split('\n')[at - 1]!.length - 3);
  await expect.poll(() => pressed(/^F gantry far/)).toBe('true');
});

test('a mark is read anew with the mouse where it is clicked, as one edit that undo takes back', async () => {
  const before = await top();
  await shot(/gantry near/).click();
  await shot(/gantry near/).click();
  await panel().locator('.shot.asked').getByText('gantry near').waitFor();
  await clickTape(1, 0);
  await expect.poll(async () => workbench().editor.locator('.view-lines').textContent()).toMatch(/near:.1.right.0.up/);
  expect(await top()).toBe(before);
  await workbench().tab(NAME).click();
  expect(await workbench().saved(NAME)).toBe(LOG.replace('1.5 right 2.0 down', '1 right 0 up'));
  await page().keyboard.press('Control+Z');
  expect(await workbench().saved(NAME)).toBe(LOG);
});

test('the sliders start at the advice and stand beside the tape; what is tried is written nowhere', async () => {
  const slider = panel().getByLabel('M1 A');
  expect(await slider.inputValue()).toBe('-0.3125');
  for (const part of [panel().locator('.tape'), slider, panel().getByLabel('M1 C')])
    expect(
      await part.evaluate((one) => {
        const { top, bottom } = one.getBoundingClientRect();
        return top >= 0 && bottom <= innerHeight;
      }),
    ).toBe(true);
  await slider.focus();
  for (let k = 0; k < 4; k++) await page().keyboard.press('ArrowRight');
  await panel().getByText('trial, not logged').waitFor();
  await panel().getByText('predicted, 95 %').waitFor();
  await workbench().picture('panel what if');
  expect(await page().locator('.tab.dirty').count()).toBe(0);
  expect(onDisk(NAME)).toBe(LOG);
  await panel().getByRole('button', { name: 'Log These Turns' }).click();
  await expect
    .poll(async () => workbench().editor.locator('.view-lines').textContent())
    .toMatch(/turn:.\{A:.out.1\/16,.B:.in.1\/4\}/);
  await page().keyboard.press('Escape');
  expect(await workbench().saved(NAME)).toBe(`${LOG}---\nadjust: M1\nturn: {A: out 1/16, B: in 1/4}\n`);
});

test('the carriages are moved through their travel, and the beam with them', async () => {
  await panel().getByRole('button', { name: 'Beam path and clearance' }).click();
  const place = panel().locator('svg[aria-label^="Beam path"] text').nth(1);
  const before = await place.textContent();
  await panel()
    .getByLabel(/^gantry/)
    .focus();
  await page().keyboard.press('Home');
  await expect.poll(() => place.textContent()).not.toBe(before);
  expect(await place.textContent()).toContain('gantry near');
  await panel().locator('svg[aria-label^="Beam path"]').scrollIntoViewIfNeeded();
  await workbench().picture('panel path');
  expect(await page().locator('.tab.dirty').count()).toBe(0);
  await panel().getByRole('button', { name: 'Beam path and clearance' }).click();
});

test('themes are followed', async () => {
  for (const theme of ['light', 'dark', 'contrast'] as const) {
    await workbench().settings(theme);
    await workbench().picture(`panel ${theme}`);
    await keepsNobodyOut(panel().locator('main'));
  }
});

test('the panel comes back with the window', async () => {
  await panel().getByLabel(/^M1:/).click();
  await panel()
    .getByRole('button', { name: /centred/ })
    .waitFor();
  await panel().getByRole('button', { name: 'Behind' }).click();
  await workbench().command('Developer: Reload Window');
  await page()
    .locator('.monaco-workbench')
    .waitFor({ state: 'detached' })
    .catch(() => undefined);
  await panel().locator('h1').filter({ hasText: NAME }).waitFor({ timeout: 60_000 });
  await expect
    .poll(() => panel().locator('.tape svg').first().getAttribute('aria-label'))
    .toBe('Tape on M1, seen from behind, looking against the beam');
});

test('blank marks are read with the keys alone, one after the other, and the tape stays where it is', async () => {
  await open(OTHER);
  await panel().getByRole('button', { name: 'Along beam' }).click();
  await sentence().getByText('Read the tapes: M2 near and far').waitFor();
  const before = await top();
  await panel().locator('.tape').focus();
  for (const key of ['ArrowRight', 'ArrowRight', 'ArrowRight', 'ArrowDown']) await page().keyboard.press(key);
  await panel().locator('.tag').getByText('1.5 right 0.5 down').waitFor();
  await workbench().picture('panel reading');
  await page().keyboard.press('Enter');
  await sentence().getByText('Read the tape: M2 far').waitFor();
  await panel().locator('.shot.asked').getByText('gantry far').waitFor();
  expect(await top()).toBe(before);
  await page().keyboard.press('ArrowLeft');
  await page().keyboard.press('Enter');
  await expect.poll(() => sentence().textContent()).not.toContain('Read the tape');
  expect(await top()).toBe(before);
  await workbench().tab(OTHER).click();
  await expect
    .poll(() => workbench().saved(OTHER))
    .toBe(BLANK.replace('near: \r\n', 'near: 1.5 right 0.5 down\r\n').replace('far: \r\n', 'far: 0.5 left 0 up\r\n'));
});

test('a mark on a tape that no cell has a place for logs the advised shot, and the next one is asked for', async () => {
  await open(UNSHOT);
  await sentence().getByText('Shoot M2 near and far').waitFor();
  const before = await top();
  await clickTape(1, 0.5);
  await panel().locator('.shot.asked').getByText('gantry far').waitFor();
  await clickTape(-1, 0.5);
  await expect.poll(() => panel().locator('.shot.asked').count()).toBe(0);
  expect(await top()).toBe(before);
  await workbench().picture('panel logged');
  await workbench().tab(UNSHOT).click();
  expect((await workbench().saved(UNSHOT)).slice(BEFORE_M2.length)).toBe(
    '---\nmarks: M2\nshots:\n  near: 1 right 0.5 up\n  far: 1 left 0.5 up\n',
  );
});

test('one click logs the step', async () => {
  const step = (await sentence().textContent())!;
  await panel().getByRole('button', { name: /^Log / }).click();
  await expect.poll(() => sentence().textContent()).not.toBe(step);
  expect(await page().locator('.quick-input-widget').isVisible()).toBe(false);
  await workbench().saved(UNSHOT);
});

test('what is signed stays: a mark that is placed there goes into a new visit, or nowhere', async () => {
  await open(RELEASED);
  const dialog = page().locator('.monaco-dialog-box');
  const place = async (answer: string) => {
    await shot(/gantry near/).click();
    await shot(/gantry near/).click();
    await panel().locator('.shot.asked').waitFor();
    await clickTape(1, 0);
    await dialog.getByText('This mark belongs to a visit that was signed by jv on 2026-03-07.').waitFor();
    await workbench().picture('signed');
    await dialog.getByRole('button', { name: answer }).click();
    await dialog.waitFor({ state: 'detached' });
  };
  await place('Cancel');
  expect(await page().locator('.tab.dirty').count()).toBe(0);
  await place('New Visit');
  await page().locator('.tab.dirty').waitFor();
  await workbench().tab(RELEASED).click();
  const text = await workbench().saved(RELEASED);
  expect(text.startsWith(SIGNED)).toBe(true);
  expect(text.slice(SIGNED.length)).toBe('---\nsession: another look\n---\nmarks: M2\nshots: {near: 1 right 0 up}\n');
});
