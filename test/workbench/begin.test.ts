/** Where there is no workbook yet, or an empty one: every button leads to one. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { example } from './editor/example.ts';
import { useWorkbench } from './editor/use.ts';

const workbench = useWorkbench({ 'README.md': '' });
const page = () => workbench().page;
const put = (file: string, text: string) => writeFileSync(join(workbench().folder, file), text);
const lens = () => page().locator('.codelens-decoration a').filter({ hasText: 'Fill In from Questions…' });

async function answers(name: string): Promise<void> {
  await workbench().answer('What is the name of the machine', name);
  await workbench().pick('As you stand in front of the machine', 'beam leaves to the left');
  await workbench().pick('Which unit do you measure in?', 'Millimetres');
  await workbench().answer('How far does the head travel', '900 600');
  await workbench().pick('How many screws', 'Three');
  await workbench().pick('As you face the screw heads', 'Upper right');
  await workbench().pick('Do the screws have lock nuts?', 'Lock nuts');
  await workbench().answer('Is there a nozzle', '4 x 45');
  await workbench().answer('How far may the beam tilt', '12');
}

test('a button of the walkthrough asks for a workbook, and is not ticked for nothing', async () => {
  const offered = page().locator('.quick-input-list .monaco-list-row').filter({ hasText: 'The first workbook' });
  const open = async () => {
    await workbench().command('Welcome: Open Walkthrough');
    return offered
      .first()
      .waitFor({ timeout: 2000 })
      .then(
        () => true,
        () => false,
      );
  };
  await expect.poll(open, { timeout: 25_000 }).toBe(true);
  await offered.first().click();
  const step = page().locator('.getting-started-step').filter({ hasText: 'Shoot, read, log' });
  await step.click();
  await step.getByRole('button', { name: 'Log Step' }).click();
  const choice = page().locator('.quick-input-list .monaco-list-row').filter({ hasText: 'Create a Workbook' });
  await choice.waitFor();
  await workbench().picture('begin choose');
  await page().keyboard.press('Escape');
  await choice.waitFor({ state: 'hidden' });
  expect(await step.locator('.codicon-getting-started-step-checked').filter({ visible: true }).count()).toBe(0);
  await workbench().picture('begin walkthrough');
});

test('the palette has nothing about the server yet', async () => {
  await page().keyboard.press('F1');
  await page().locator('.quick-input-widget input').fill('>Alignbook');
  const rows = page().locator('.quick-input-list .monaco-list-row');
  await rows.filter({ hasText: 'Create a Workbook' }).first().waitFor();
  expect(await rows.filter({ hasText: /Restart Server|Server Messages/ }).count()).toBe(0);
  await page().keyboard.press('Escape');
});

test('an empty workbook offers the questions where they are answered', async () => {
  put('empty.alignbook.yaml', '');
  await workbench().show('empty.alignbook.yaml');
  await lens().waitFor();
  await workbench().statusItem('empty: fill in from questions').waitFor();
  await workbench().picture('empty');
  await lens().click();
  await answers('heron');
  await workbench()
    .statusItem(/Make safe/)
    .waitFor();
  await lens().waitFor({ state: 'detached' });
  expect(await workbench().saved('empty.alignbook.yaml')).toMatch(/^(#.*\n)*machine: heron\n/);
  await workbench().picture('empty filled');
});

test('comments stay where they are; the quick fix and the status item offer the same', async () => {
  put('comments.alignbook.yaml', '# To be filled in.');
  await workbench().show('comments.alignbook.yaml');
  await lens().waitFor();
  await workbench().quickFix('Fill In from Questions…');
  await page().locator('.quick-input-widget').filter({ hasText: 'What is the name' }).waitFor();
  await page().keyboard.press('Escape');
  await workbench().statusItem('empty: fill in from questions').click();
  await answers('plover');
  await workbench()
    .statusItem(/Make safe/)
    .waitFor();
  expect(await workbench().saved('comments.alignbook.yaml')).toMatch(/^# To be filled in\.\n(#.*\n)*machine: plover\n/);
});

test('the status stays while the targets have the focus, and its click logs', async () => {
  await workbench().show('empty.alignbook.yaml');
  await page().keyboard.press('Control+K');
  await page().keyboard.press('t');
  const sheet = page().frameLocator('iframe.webview.ready').frameLocator('#active-frame');
  await sheet.locator('main').click({ position: { x: 5, y: 5 } });
  await expect.poll(() => page().evaluate('document.activeElement.tagName')).toBe('IFRAME');
  await workbench()
    .statusItem(/Make safe/)
    .waitFor();
  await workbench().picture('status in targets');
  await workbench()
    .statusItem(/Make safe/)
    .click();
  await workbench().pick('Choose the last step that is done', 'make safe');
  await expect.poll(() => page().locator('.tab.dirty').count()).toBe(1);
  await workbench()
    .statusItem(/Shoot M1/)
    .waitFor();
});

test('the settings of the user are in a new workbook, in what is logged, and in the record', async () => {
  await workbench().settings('light', {
    'alignbook.by': 'Jo Vance',
    'alignbook.newWorkbook.resolution': '0.25 mm',
    'alignbook.newWorkbook.placing': '0.3 mm',
    'alignbook.record.paper': 'letter',
  });
  await workbench().command('Alignbook: Create a Workbook');
  await answers('tern');
  await workbench().tab('tern.alignbook.yaml').waitFor();
  await workbench()
    .statusItem(/Make safe/)
    .waitFor();
  const text = await workbench().saved('tern.alignbook.yaml');
  expect(text).toContain('reading: {resolution: 0.25 mm, placing: 0.3 mm}\n');
  expect(text).toMatch(/session: first alignment\ndate: .*\nby: Jo Vance\n/);
  put('skiff.alignbook.yaml', example('2-new-tube.alignbook.yaml').replace(/release: in service\nby: an\n$/, ''));
  await workbench().show('skiff.alignbook.yaml');
  await workbench()
    .statusItem(/sign off/)
    .click();
  await workbench()
    .line(/by:\sJo\sVance/)
    .waitFor();
  await workbench().saved('skiff.alignbook.yaml');
  await workbench().command('Alignbook: Show Record');
  await workbench().tab('Record').waitFor();
  const record = page().frameLocator('iframe.webview.ready').last().frameLocator('#active-frame');
  await expect
    .poll(() => record.locator('style').allTextContents())
    .toContainEqual(expect.stringContaining('size:letter'));
  await workbench().settings('dark');
});

test('a new name without .alignbook is noticed, and mended in one click', async () => {
  put('wrong.alignbook.yaml', 'note: a\n');
  await workbench().show('wrong.alignbook.yaml');
  await page().locator('.explorer-folders-view .monaco-list-row').filter({ hasText: 'wrong.alignbook.yaml' }).click();
  await page().keyboard.press('F2');
  await page().locator('.explorer-item-edited input').waitFor();
  // What the editor has selected is replaced.
  await page().keyboard.type('right');
  await page().keyboard.press('Enter');
  const button = page()
    .locator('.notification-toast .monaco-button')
    .filter({ hasText: 'Rename to right.alignbook.yaml' });
  await button.waitFor();
  await workbench().picture('renamed');
  await button.click();
  await workbench().tab('right.alignbook.yaml').waitFor();
});
