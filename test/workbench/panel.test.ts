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
const workbench = useWorkbench({ [NAME]: LOG, [OTHER]: BLANK, [RELEASED]: SIGNED });
const page = () => workbench().page;
const panel = () => page().frameLocator('iframe.webview.ready').frameLocator('#active-frame');
const onDisk = (file: string) => readFileSync(join(workbench().folder, file), 'utf8');

async function open(file: string): Promise<void> {
  // After a reload the panel has the focus, and a file would be opened in front of it.
  await page().keyboard.press('Control+1');
  await workbench().show(file);
  await workbench().command('Alignbook: Show Targets');
  await panel().locator('h1').filter({ hasText: file }).waitFor();
}

test('it opens beside the text, with the next step and the target in question', async () => {
  await open(NAME);
  await panel().getByText('next:').waitFor();
  expect(await panel().locator('svg').first().getAttribute('aria-label')).toBe('Tape on M2, seen along the beam');
  await workbench().picture('panel');
});

test('it is offered above the last cell, too', async () => {
  await page().locator('.codelens-decoration a').filter({ hasText: 'Show Targets' }).first().waitFor();
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
  await workbench().goTo(at, 16);
  await expect
    .poll(() =>
      panel()
        .getByRole('button', { name: /gantry near/ })
        .getAttribute('aria-pressed'),
    )
    .toBe('true');
  await workbench().goTo(at, LOG.split('\n')[at - 1]!.length - 3);
  await expect
    .poll(() =>
      panel()
        .getByRole('button', { name: /gantry far/ })
        .getAttribute('aria-pressed'),
    )
    .toBe('true');
});

test('a mark is placed with the mouse where it is clicked, as one edit that undo takes back', async () => {
  await panel()
    .getByRole('button', { name: /^near \(/ })
    .click();
  const tape = (await panel().locator('.tape').boundingBox())!;
  // A quarter of the tape to the right of the middle, on the axis.
  await panel()
    .locator('.tape')
    .click({ position: { x: tape.width / 2 + 40, y: 20 + (tape.width / 2 - 56) } });
  await expect
    .poll(async () => workbench().editor.locator('.view-lines').textContent())
    .toMatch(/near:.(\d|\.)+.right.0.up/);
  await workbench().tab(NAME).click();
  const written = await workbench().saved(NAME);
  expect(written).toMatch(/near: (\d+|\d+\.5) right 0 up, far: 6\.0 right 5\.5 down/);
  expect(written.replace(/near: [\d.]+ right 0 up/, 'near: 1.5 right 2.0 down')).toBe(LOG);
  await page().keyboard.press('Control+Z');
  expect(await workbench().saved(NAME)).toBe(LOG);
});

test('what is tried is shown on the tape and written nowhere', async () => {
  await panel().getByLabel('M1 A').focus();
  for (let k = 0; k < 4; k++) await page().keyboard.press('ArrowRight');
  await panel().getByText('Trial, not logged').waitFor();
  await panel().getByText('predicted mark, 95 %').waitFor();
  await workbench().picture('panel what if');
  expect(await page().locator('.tab.dirty').count()).toBe(0);
  expect(onDisk(NAME)).toBe(LOG);
  await panel().getByRole('button', { name: 'Log These Turns' }).click();
  await expect
    .poll(async () => workbench().editor.locator('.view-lines').textContent())
    .toMatch(/turn:.\{A:.in.1\/4\}/);
  await page().keyboard.press('Escape');
  expect(await workbench().saved(NAME)).toBe(`${LOG}---\nadjust: M1\nturn: {A: in 1/4}\n`);
});

test('the carriages are moved through their travel, and the beam with them', async () => {
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
});

test('themes are followed', async () => {
  for (const theme of ['light', 'dark', 'contrast'] as const) {
    await workbench().settings(theme);
    await workbench().picture(`panel ${theme}`);
  }
});

test('the panel comes back with the window', async () => {
  await panel().getByLabel(/^M1:/).click();
  await panel()
    .getByRole('button', { name: /centred/ })
    .waitFor();
  await panel().getByRole('checkbox', { name: 'seen from behind' }).check();
  await workbench().command('Developer: Reload Window');
  await page()
    .locator('.monaco-workbench')
    .waitFor({ state: 'detached' })
    .catch(() => undefined);
  await panel().locator('h1').filter({ hasText: NAME }).waitFor({ timeout: 60_000 });
  await expect
    .poll(() => panel().locator('svg').first().getAttribute('aria-label'))
    .toBe('Tape on M1, seen from behind, looking against the beam');
});

test('blank marks are filled in with the keys alone', async () => {
  await open(OTHER);
  await panel().getByRole('checkbox', { name: 'seen from behind' }).uncheck();
  await panel()
    .getByRole('button', { name: /^far \(/ })
    .focus();
  await page().keyboard.press('Enter');
  for (const key of ['ArrowRight', 'ArrowRight', 'ArrowRight', 'ArrowDown']) await page().keyboard.press(key);
  await panel()
    .getByText(/far \(front\): 1\.5 right \(machine left\), 0\.5 down/)
    .waitFor();
  await page().keyboard.press('Enter');
  await workbench().tab(OTHER).click();
  await expect.poll(() => workbench().saved(OTHER)).toBe(BLANK.replace('far: \r\n', 'far: 1.5 right 0.5 down\r\n'));
});

test('what is signed stays: a mark that is placed there goes into a new visit, or nowhere', async () => {
  await open(RELEASED);
  const dialog = page().locator('.monaco-dialog-box');
  const place = async (answer: string) => {
    await panel()
      .getByRole('button', { name: /^near \(/ })
      .click();
    const { width } = (await panel().locator('.tape').boundingBox())!;
    await panel()
      .locator('.tape')
      .click({ position: { x: width / 2 + 40, y: 20 + (width / 2 - 56) } });
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
  expect(text.slice(SIGNED.length)).toMatch(
    /^---\nsession: another look\n---\nmarks: M2\nshots: \{near: [\d.]+ right 0 up\}\n$/,
  );
});

test('it keeps nobody out', async () => {
  await open(NAME);
  await keepsNobodyOut(panel().locator('main'));
});
