/** The machines in the side bar: groups, badge, what a click opens, changes of files, and an empty folder. */
import { mkdirSync, readFileSync, readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { ROOT } from '../house/layers.ts';
import { example } from './editor/example.ts';
import { useWorkbench } from './editor/use.ts';

const SHARED = readFileSync(join(ROOT, 'examples', 'machines', 'bollard.alignbook.yaml'), 'utf8');
const near = (file: string) => example(file).replace('machines/bollard', 'bollard');
/** So many days from the one on which the test runs. */
const day = (from: number) => new Date(Date.now() + from * 24 * 3600_000).toISOString().slice(0, 10);
/** Every care of the service is done anew, and one of them is due in ten days. */
const due = example('1-full-service.alignbook.yaml')
  .replace('machine: dory', 'machine: dunlin')
  .replace(/2026-03-07/g, day(-20))
  .replace('lens: every 40 h, M1: every 6 months', 'lens: every 400 h, M1: every 30 days');
const inService = example('2-new-tube.alignbook.yaml');
const workbench = useWorkbench({
  'dunlin.alignbook.yaml': due,
  'skiff.alignbook.yaml': inService,
  'missed.alignbook.yaml': near('5-missed.alignbook.yaml'),
  'inches.alignbook.yaml': near('4-inches.alignbook.yaml'),
  'year.alignbook.yaml': near('6-through-the-year.alignbook.yaml'),
  'bollard.alignbook.yaml': SHARED,
  'mistakes.alignbook.yaml': example('mistakes.alignbook.yaml'),
  'practice.alignbook.yaml': inService.replace(/^machine: skiff$/m, 'machine: teal\npractice: {seed: 7, level: 2}'),
  'notes.md': '',
});
const page = () => workbench().page;
const bar = (name: string) =>
  page()
    .locator('.activitybar .action-item')
    .filter({ has: page().locator(`[aria-label^="${name}"]`) });
const badge = () => bar('Alignbook').locator('.badge-content').textContent();
const rows = () => page().locator('.pane-body .monaco-list-row');
const row = (text: string | RegExp) => rows().filter({ hasText: text });
const texts = async () => (await rows().allTextContents()).map((text) => text.replace(/\s+/g, ' ').trim());
const put = (file: string, text: string) => writeFileSync(join(workbench().folder, file), text);

test('every workbook is in the group of what somebody must do, and the first group is counted', async () => {
  await bar('Alignbook').click();
  await row('mistakes.alignbook.yaml').waitFor();
  await expect.poll(badge).toBe('3');
  await expect
    .poll(texts)
    .toEqual([
      'Needs somebody3',
      'bollard (inches)not shot: lens · withdrawn',
      'bollard (missed)outside: M2 · not released since 2026-05-09',
      'bollard (year)not shot: M3, lens · not released since 2026-07-11',
      'Due within 30 days1',
      'dunlinwithin · M1 in 10 days',
      'In service1',
      'skiffwithin · last visit 2026-02-18',
      'Practice1',
      'tealPRACTICE · within',
      'Not readable1',
      'mistakes.alignbook.yamlline 114: merge conflict',
    ]);
  await workbench().picture('machines');
});

test('what is known of a machine stands below it, and what to do now in its hover', async () => {
  await row('dunlin').locator('.monaco-tl-twistie').click();
  await row('M1 care').waitFor();
  const about = (await texts()).filter((text) => / care|Last visit/.test(text));
  expect(about).toEqual([
    `Last visit${day(-20)}, spring service, jv`,
    `M1 care${day(10)}, in 10 days`,
    'lens carein 399.6 h, at 1604 h',
    expect.stringMatching(/^M2, M3 care/) as string,
  ]);
  await row('dunlin').hover();
  await workbench().picture('machines open');
  await workbench().settings('light');
  await row('(missed)').hover();
  await page().locator('.monaco-hover').filter({ hasText: 'Shoot M2 at 220 mm' }).waitFor();
  await workbench().picture('machines light');
  await workbench().settings('dark');
});

test('a click opens the workbook, on a fact its cell, and the targets are one click away', async () => {
  await row('skiff').locator('.label-name').click();
  await workbench().tab('skiff.alignbook.yaml').waitFor();
  await row('M1 care').click();
  await workbench().tab('dunlin.alignbook.yaml').waitFor();
  const line = due.slice(0, due.indexOf('\ncare: M1') + 1).split('\n').length;
  await workbench().statusItem(`Ln ${line}, Col 9 (2 selected)`).waitFor();
  await workbench().picture('machines cell');
  await row('skiff').hover();
  await row('skiff').locator('[aria-label="Show Targets"]').click();
  await workbench().tab('Targets').waitFor();
  await workbench().tab('skiff.alignbook.yaml').waitFor();
  await row('skiff').hover();
  await row('skiff').locator('[aria-label="Make Record"]').click();
  await workbench().tab('Record').waitFor();
});

test('in the preferred view, and on a fact its cell there', async () => {
  // With another theme, which shows that the settings have arrived.
  await workbench().settings('light', { 'alignbook.openAs': 'notebook' });
  await row('(year)').locator('.label-name').click();
  await page().locator('.notebookOverlay').filter({ visible: true }).waitFor();
  await row('(year)').locator('.monaco-tl-twistie').click();
  await row('M2 drifts out').click();
  await workbench().statusItem('Cell 14 of 14').waitFor();
  await workbench().picture('machines notebook');
  await workbench().settings('dark');
});

test('the list follows what is typed, written, renamed and deleted', async () => {
  await row('skiff').locator('.label-name').click();
  await workbench()
    .line(/machine:\sskiff/)
    .waitFor();
  await page().keyboard.press('Control+End');
  await workbench().type('\n---\ncare: M2\nfound: cracked\n');
  await row(/skiffdo not fire: M2 cracked/).waitFor();
  await expect.poll(badge).toBe('4');
  await workbench().picture('machines typed');
  await workbench().saved('skiff.alignbook.yaml');
  put('smew.alignbook.yaml', inService.replace('machine: skiff', 'machine: smew'));
  await row('smew').waitFor();
  mkdirSync(join(workbench().folder, 'loft'));
  renameSync(
    join(workbench().folder, 'smew.alignbook.yaml'),
    join(workbench().folder, 'loft', 'wigeon.alignbook.yaml'),
  );
  const address = async () => (await workbench().hover(row('smew'))).textContent();
  await expect.poll(address).toContain('loft/wigeon.alignbook.yaml');
  rmSync(join(workbench().folder, 'loft', 'wigeon.alignbook.yaml'));
  await row('smew').waitFor({ state: 'detached' });
});

test('an empty folder offers ways to begin', async () => {
  await workbench().command('View: Close All Editors');
  for (const file of readdirSync(workbench().folder))
    if (file.endsWith('.yaml')) rmSync(join(workbench().folder, file));
  const button = (text: string) => page().locator('.welcome-view-content .monaco-button').filter({ hasText: text });
  await button('Create a Workbook').waitFor();
  await button('Practise on a Simulated Machine').waitFor();
  await workbench().picture('machines none');
  await workbench().settings('light');
  await workbench().picture('machines none light');
  await workbench().settings('dark');
  await button('Open an Example').click();
  await workbench().pick('A copy is opened', 'A new tube');
  await workbench()
    .line(/machine:\sskiff/)
    .waitFor();
  await workbench()
    .statusItem(/within/i)
    .waitFor();
  await button('Create a Workbook').click();
  await page().locator('.quick-input-widget').filter({ hasText: 'What is the name of the machine' }).waitFor();
});
