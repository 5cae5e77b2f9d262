/**
 * One file, two views, as a person uses them: what is edited in the notebook, and what stands on the disk afterwards.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { sampled } from '../support/amount.ts';
import { LIMITS, MACHINE } from '../support/log.ts';
import { keepsNobodyOut } from './editor/access.ts';
import { useNotebook } from './editor/notebook.ts';
import { useWorkbench } from './editor/use.ts';

const ROUND = 'marks: M2\nshots: {near: 1.5 right 2.0 down, far: 6.0 right 5.5 down}\n';
const LOG = [
  MACHINE,
  LIMITS,
  'session: spring service\ndate: 2026-03-07\n',
  'note: |\n  The **far** corner.\n',
  'marks: M1\nshots: centre\n',
  ROUND,
].join('---\n');
/** Each has a cell `work: W` whose last line is written on: `x: 1` becomes `x: 12`. */
const NASTY: Readonly<Record<string, string>> = {
  crlf: `${LOG.replaceAll('\n', '\r\n')}---\r\nwork: W\r\nx: 1\r\n`,
  mixed: `${LOG.replace('limits: workshop\n', 'limits: workshop\r\n')}---\r\nwork: W\nx: 1\r\n---\nnote: end\n`,
  mark: `\ufeff${LOG}---\nwork: W\nx: 1\n`,
  'open-end': `${LOG}---\nwork: W\nx: 1`,
  closed: `${LOG}...\n---\nwork: W\nx: 1\n...\n# tail\n`,
  comments: `# head\n\n${LOG}...\n# between\n---\n# why\nwork: W\nx: 1\n---\nnote: >\n  folded\n`,
  directive: `%YAML 1.2\n---\n${LOG}...\n%YAML 1.2\n---\nwork: W\nx: 1\n`,
  first: `work: W\nx: 1\n---\n${LOG}`,
  last: `---\n${LOG}--- # opened\nwork: W\nx: 1\n\n\n`,
  broken: `${LOG}---\nwork: W\nx: 1\n---\nmarks: [M2\n<<<<<<< a\nshots: 1\n=======\nshots: 2\n>>>>>>> b\n---\n"\n`,
  'lone-return': `${LOG}---\nwork: W\nx: 1\n---\nnote: a\rb\n`,
};
const EXAMPLES = readdirSync('examples').filter((name) => name.endsWith('.alignbook.yaml'));
const FILES = {
  'log.alignbook.yaml': LOG,
  'both.alignbook.yaml': LOG,
  'panel.alignbook.yaml': LOG,
  ...Object.fromEntries(Object.entries(NASTY).map(([name, text]) => [`${name}.alignbook.yaml`, text])),
  ...Object.fromEntries(EXAMPLES.map((name) => [name, readFileSync(join('examples', name), 'utf8')])),
};
const workbench = useWorkbench(FILES);
const page = () => workbench().page;
const onDisk = (file: string) => readFileSync(join(workbench().folder, file), 'utf8');
const notebook = useNotebook(workbench);
const { output, open, close, type, toThe } = notebook;
const panel = () =>
  page().frameLocator('iframe.webview.ready:not([src*="purpose=notebookRenderer"])').frameLocator('#active-frame');

test('text is the default, and a command shows the same file as a notebook', async () => {
  await open('log.alignbook.yaml');
  await toThe('End');
  await output().locator('.sheet .state.outside').first().waitFor({ timeout: 20_000 });
  await workbench().picture('notebook');
});

test('below the cells stand their tapes; nothing is saved of that', async () => {
  await output().locator('svg[aria-label^="Tape on M2"]').first().waitFor();
  expect(await page().locator('.tab.dirty').count()).toBe(0);
  expect(onDisk('log.alignbook.yaml')).toBe(LOG);
});

test.each(['light', 'contrast', 'dark'] as const)('nothing of it keeps anybody out: %s', async (theme) => {
  await workbench().settings(theme);
  await keepsNobodyOut(output().locator('.sheet').last(), '.sheet');
});

test('an edit is followed as it is typed, and the file differs by that line alone', async () => {
  await type('shots: centre', ' # again');
  expect(await workbench().saved('log.alignbook.yaml')).toBe(LOG.replace('shots: centre', 'shots: centre # again'));
  await type('shots: {near', ' # yes');
  expect(await workbench().saved('log.alignbook.yaml')).toBe(edited(' # yes'));
});

test('back as text, with what was edited', async () => {
  await type('shots: {near', ', two');
  await workbench().command('Alignbook: Show as Text');
  await workbench().editor.locator('.view-line').first().waitFor();
  await expect.poll(() => page().locator('.tabs-container .tab').count()).toBe(1);
  expect(onDisk('log.alignbook.yaml')).toBe(edited(' # yes, two'));
  await page().keyboard.press('Control+End');
  await workbench().type('#');
  await notebook.showAsNotebook();
  // Saved before it was switched: never two views with changes of their own.
  expect(onDisk('log.alignbook.yaml')).toMatch(/# yes, two\n#\n?$/);
  await close();
});

test('where both views are opened by hand, the one without changes goes when the other is edited', async () => {
  await open('both.alignbook.yaml');
  await workbench().show('both.alignbook.yaml');
  expect(await workbench().tab('both.alignbook.yaml').count()).toBe(2);
  await page().keyboard.press('Control+End');
  await workbench().type('#');
  await expect.poll(() => page().locator('.tabs-container .tab').count()).toBe(1);
  await page().getByText('a file is edited in one view at a time').first().waitFor();
  expect(await workbench().saved('both.alignbook.yaml')).toMatch(/#\n?$/);
  await workbench().command('View: Close Editor');
});

test.each(sampled(Object.keys(NASTY)))('%s: one cell edited, every other byte as it was', async (name) => {
  const file = `${name}.alignbook.yaml`;
  await open(file);
  await type('x: 1', '2');
  expect(await workbench().saved(file)).toBe(NASTY[name]!.replace('x: 1', 'x: 12'));
  await close();
});

test.each(sampled(EXAMPLES))('%s opens, and is not changed by that', async (file) => {
  await open(file);
  expect(await page().locator('.tab.dirty').count()).toBe(0);
  await close();
  expect(onDisk(file)).toBe(readFileSync(join('examples', file), 'utf8'));
});

test('the panel beside a notebook: a mark clicked there is selected in its cell, and placed there', async () => {
  await open('panel.alignbook.yaml');
  await workbench().command('Alignbook: Show Targets');
  await panel()
    .getByRole('button', { name: /gantry far from M1 \(front\): 6 right/ })
    .click();
  await page().locator('.notebook-editor:visible .focused .selected-text').first().waitFor();
  await page().keyboard.type('none');
  expect(await workbench().saved('panel.alignbook.yaml')).toBe(LOG.replace('6.0 right 5.5 down', 'none'));
  const near = panel().locator('.shot').filter({ hasText: 'gantry near' });
  await near.click();
  await near.click();
  await panel().locator('.shot.asked').waitFor();
  await panel().locator('.tape').focus();
  await page().keyboard.press('ArrowRight');
  await panel().locator('.tag').getByText('2.0 right 2.0 down').waitFor();
  await page().keyboard.press('Enter');
  await workbench().tab('panel.alignbook.yaml').click();
  await expect
    .poll(() => workbench().saved('panel.alignbook.yaml'))
    .toBe(LOG.replace('1.5 right 2.0 down', '2 right 2 down').replace('6.0 right 5.5 down', 'none'));
  await workbench().picture('notebook panel');
});

function edited(remark: string): string {
  return LOG.replace('shots: centre', 'shots: centre # again').replace(/\n$/, `${remark}\n`);
}
