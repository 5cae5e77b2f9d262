/** The verdict and the next step in the status bar, and the step written down when it is done. */
import { expect, test } from 'vitest';
import { LIMITS, MACHINE } from '../support/log.ts';
import { useWorkbench } from './editor/use.ts';
import { textOf } from './editor/workbench.ts';

const LOG = [
  MACHINE,
  LIMITS,
  'marks: M1\nshots: centre\n',
  'marks: M2\nshots: {near: 1.5 right 2 down, far: 6 right 5.5 down}\n',
].join('---\n');
/** Its last line is indented and has no end. */
const BLOCK = [MACHINE, LIMITS, 'marks: M1\nshots:\n  here: centre'].join('---\n');
const OPEN = [MACHINE, LIMITS, 'session: spring\n', 'checks: make safe\nopen: [eyewear, covers closed]\n'].join(
  '---\n',
);
const CONFLICT = `${LOG}<<<<<<< here\n---\nnote: one\n=======\n---\nnote: other\n>>>>>>> there\n`;
const BLANK = `${LOG}---\nmarks: M2\nshots:\n  near: \n  far: \n`;
const SIGNED = [
  MACHINE,
  LIMITS,
  'session: spring\ndat: 2026-03-14\n',
  'marks: M1\nshots: centre\n',
  'release: in service\nby: kt\ndate: 2026-03-14\n',
].join('---\n');
const workbench = useWorkbench({
  'blank.alignbook.yaml': BLANK,
  'signed.alignbook.yaml': SIGNED,
  'wren.alignbook.yaml': LOG,
  'block.alignbook.yaml': BLOCK,
  'open.alignbook.yaml': OPEN,
  'conflict.alignbook.yaml': CONFLICT,
  'notes.md': '',
});
/** The sentence above the last cell. */
const sentence = async () => (await textOf(workbench().page.locator('.codelens-decoration').last())).split(' | ')[0]!;
const status = async (verdict: RegExp) => (await textOf(workbench().statusItem(verdict).first())).trim();

test('the next steps stand in the status bar while a workbook is in front', async () => {
  await workbench().show('wren.alignbook.yaml');
  const next = workbench().statusItem(/M1: [ABC] (in|out) /);
  await next.waitFor();
  await next.hover();
  await workbench().page.locator('.monaco-hover').filter({ hasText: 'Not within limits yet' }).waitFor();
  await workbench().picture('status');
  await workbench().show('notes.md');
  await next.waitFor({ state: 'detached' });
});

test('what was done is written down, and the marks are typed where they belong', async () => {
  await workbench().show('wren.alignbook.yaml');
  await workbench().statusItem(/M1: /).click();
  await workbench().picture('steps');
  await workbench().pick('Choose the last step that is done', 'shoot M2 near (rear) and far (front)');
  await workbench()
    .line(/far:\s*$/)
    .waitFor();
  // Until then nothing offers the same step again.
  await workbench().statusItem('Read the tapes: M2 near and far').waitFor();
  await expect.poll(sentence).toBe('Read the tapes: M2 near and far');
  await workbench().type('0.5 right 2 down');
  await workbench().page.keyboard.press('Tab');
  await workbench().type('0.5 right 2.5 down');
  // With the last letter the mark is whole.
  await expect.poll(sentence).toMatch(/^M1: /);
  await expect.poll(async () => (await status(/M1: /)) === (await sentence())).toBe(true);
  const text = await workbench().saved('wren.alignbook.yaml');
  expect(text.slice(LOG.length)).toMatch(
    /^---\nadjust: M1\nturn: \{.*\}\n---\nadjust: M1\nturn: \{.*\}\n---\nmarks: M2\nshots:\n {2}near: 0\.5 right 2 down\n {2}far: 0\.5 right 2\.5 down\n$/,
  );
  await workbench().picture('written');
});

test('cells begin at the first column, whatever the editor has indented; a single step needs no list', async () => {
  await workbench().show('block.alignbook.yaml');
  await workbench().page.keyboard.press('Control+End');
  await workbench().page.keyboard.press('Enter');
  await workbench()
    .statusItem(/Shoot M2/)
    .click();
  await workbench()
    .line(/near:\s*$/)
    .waitFor();
  await workbench().type('0.5 right 2 down');
  expect((await workbench().saved('block.alignbook.yaml')).slice(BLOCK.length)).toMatch(
    /^\n *\n---\nmarks: M2\nshots:\n {2}near: 0\.5 right 2 down\n {2}far: \n$/,
  );
});

test('open checks come first, and are logged like any step', async () => {
  await workbench().show('open.alignbook.yaml');
  await workbench().statusItem('Make safe (2 open)').click();
  await workbench().pick('Choose the last step that is done', 'make safe (2 open)');
  await workbench()
    .statusItem(/Shoot M1/)
    .waitFor();
  expect((await workbench().saved('open.alignbook.yaml')).slice(OPEN.length)).toBe(
    '---\nchecks: make safe\ndone:\n  - eyewear\n  - covers closed\n',
  );
  await workbench().picture('make safe');
});

test('a conflict is to be resolved first, above the last cell and in the status bar', async () => {
  await workbench().show('conflict.alignbook.yaml');
  await workbench().statusItem('Blocked: resolve the conflict first').waitFor();
  await expect.poll(sentence).toMatch(/^Blocked: resolve the conflict first/);
  await workbench().picture('conflict');
});

test('a blank shows what belongs there, and is no error', async () => {
  await workbench().show('blank.alignbook.yaml');
  const blank = workbench()
    .line(/^\s*near:/)
    .last();
  await expect
    .poll(() =>
      blank.evaluate((line) =>
        [...line.querySelectorAll('span')].map((span) => getComputedStyle(span, '::after').content).join(''),
      ),
    )
    .toContain('right or left, up or down');
  expect(await workbench().editor.locator('.squiggly-error').count()).toBe(0);
  await workbench().picture('blank');
});

test('a signed visit has a line beside it, and a quick fix in it asks first', async () => {
  await workbench().show('signed.alignbook.yaml');
  await workbench().goTo(SIGNED.split('\n').indexOf('dat: 2026-03-14') + 1);
  await workbench().editor.locator('.cgmr').first().waitFor();
  await workbench().picture('signed');
  await workbench().quickFix('Write `date` (signed by kt on 2026-03-14)');
  const box = workbench().page.locator('.edit-checkbox').last();
  // Not made, and not ticked, until it is confirmed.
  await box.waitFor();
  expect(await box.isChecked()).toBe(false);
  await workbench().picture('signed-preview');
  expect(await workbench().saved('signed.alignbook.yaml')).toBe(SIGNED);
});
