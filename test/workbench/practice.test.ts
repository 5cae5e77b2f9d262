/** Practice in the real editor: from the command to a burnt tape that is read, and advice that is asked for. */
import { expect, test } from 'vitest';
import { expressions, practiceWorkbook, threads } from '../../src/language/index.ts';
import { useWorkbench } from './editor/use.ts';

const NAME = 'practice.alignbook.yaml';
const TEXT = `${practiceWorkbook({ threads, expressions }, { seed: 12, level: 2 }).replace('\nopen:', '\ndone:')}---\nmarks: M2\nshots: {near: , far: }\n`;
const workbench = useWorkbench({ [NAME]: TEXT });
const page = () => workbench().page;
const panel = () => page().frameLocator('iframe.webview.ready').frameLocator('#active-frame');
const lens = (title: string) => page().locator('.codelens-decoration a').filter({ hasText: title }).first();

test('above a blank stands Fire; it asks what is expected, then shows the burnt tape in the panel', async () => {
  await workbench().show(NAME);
  await workbench().goTo(TEXT.split('\n').length, 1);
  await lens('Fire: M2 near').click();
  await workbench().answer('What do you expect?', '1.0 left 2.0 up');
  await panel()
    .getByRole('application', { name: /^Burnt tape on M2/ })
    .waitFor();
  expect(await workbench().saved(NAME)).toContain('x-expected: {near: 1.0 left 2.0 up}\n');
  await workbench().picture('practice');
});

test('the tape is read with a click, as one edit', async () => {
  await panel()
    .getByRole('application', { name: /^Burnt tape on M2/ })
    .click({ position: { x: 150, y: 140 } });
  // A page has the focus now, and the file is saved from its editor.
  await page().keyboard.press('Control+1');
  await expect.poll(() => workbench().saved(NAME)).toMatch(/near: \S+ (?:right|left) \S+ (?:up|down), far: \}/);
});

test('the status bar keeps the advice until it is asked for, and the log has it', async () => {
  await workbench().statusItem('PRACTICE').waitFor();
  await page().keyboard.press('Control+1');
  await workbench().command('Alignbook: Show Advice');
  await workbench().line('note: Asked for advice.').waitFor();
  expect(await workbench().saved(NAME)).toContain('note: Asked for advice.\n');
  await panel().getByRole('button', { name: 'Show Advice · asked 1 time' }).waitFor();
});

test('a new machine is opened by level', async () => {
  await workbench().command('Alignbook: Practise on a Simulated Machine');
  await workbench().pick('Choose a level', 'One mirror');
  await workbench().tab('practice-1-').waitFor();
  await workbench().line('practice: {seed:').waitFor();
});
