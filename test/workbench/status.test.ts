/** The verdict and the next step in the status bar, and the step written down when it is done. */
import { expect, test } from 'vitest';
import { LIMITS, MACHINE } from '../support/log.ts';
import { useWorkbench } from './editor/use.ts';

const LOG = [
  MACHINE,
  LIMITS,
  'marks: M1\nshots: centre\n',
  'marks: M2\nshots: {near: 1.5 right 2 down, far: 6 right 5.5 down}\n',
].join('---\n');
const workbench = useWorkbench({ 'wren.alignbook.yaml': LOG, 'notes.md': '' });

test('the next steps stand in the status bar while a workbook is in front', async () => {
  await workbench().show('wren.alignbook.yaml');
  const next = workbench().statusItem(/next: M1 [ABC] (in|out) /);
  await next.waitFor();
  await next.hover();
  await workbench().page.locator('.monaco-hover').filter({ hasText: 'Not within limits yet' }).waitFor();
  await workbench().picture('status');
  await workbench().show('notes.md');
  await next.waitFor({ state: 'detached' });
});

test('what was done is written down, and the marks are typed where they belong', async () => {
  await workbench().show('wren.alignbook.yaml');
  await workbench()
    .statusItem(/next: M1/)
    .click();
  await workbench().picture('steps');
  await workbench().pick('Choose the last step that is done', 'shoot M2 near (rear) and far (front)');
  await workbench()
    .line(/far:\s*$/)
    .waitFor();
  await workbench().type('0.5 right 2 down');
  await workbench().page.keyboard.press('Tab');
  await workbench().type('0.5 right 2.5 down');
  const text = await workbench().saved('wren.alignbook.yaml');
  expect(text.slice(LOG.length)).toMatch(
    /^---\nadjust: M1\nturn: \{.*\}\n---\nadjust: M1\nturn: \{.*\}\n---\nmarks: M2\nshots:\n {2}near: 0\.5 right 2 down\n {2}far: 0\.5 right 2\.5 down\n$/,
  );
  await workbench().picture('written');
});
