/** Values beside the text and explanations over it, in three themes. */
import { expect, test } from 'vitest';
import { LIMITS, MACHINE } from '../support/log.ts';
import { useWorkbench } from './editor/use.ts';
import { textOf } from './editor/workbench.ts';

const BOOK = 'wren.alignbook.yaml';
const LOG = [
  MACHINE,
  LIMITS,
  'marks: M1\nshots: centre\n',
  'marks: M2\nshots:\n  near: 1.5 right 2 down\n  far: 6 right 5.5 down\n',
].join('---\n');
const workbench = useWorkbench({ [BOOK]: LOG });
const station = () => workbench().line(/marks:.*M2/);
const mark = () => workbench().line(/far:.*6.*right.*5\.5/);

test('values stand beside the text, whole', async () => {
  await workbench().show(BOOK);
  await expect.poll(() => textOf(station())).toBe('marks: M2 outside, < 1 % · centre 8.1 of 2 mm (far, front)');
  await expect.poll(() => textOf(mark())).toMatch(/5\.5 down$/);
});

test.each(['light', 'dark', 'contrast'] as const)(
  'a mark is explained with a picture of the tape: %s',
  async (theme) => {
    await workbench().settings(theme);
    const said = await workbench().hover(mark().locator('span span').filter({ hasText: '5.5' }).first());
    const picture = said.locator('img');
    await expect
      .poll(() => picture.evaluate((image) => (image as unknown as { naturalWidth: number }).naturalWidth))
      .toBeGreaterThan(50);
    await workbench().picture(`views ${theme}`);
  },
);

test('the step stands above the last cell, with the command that logs it', async () => {
  const lens = workbench().page.locator('.codelens-decoration').first();
  await expect.poll(() => lens.textContent()).toMatch(/^M1: [ABC] .*, [ABC] .*\s\|\sLog Step\s\|\sShow Targets$/);
});

test('marks can be shown in the machine’s words, without their details', async () => {
  await workbench().settings('dark', { 'alignbook.inlineValues.marks': true });
  await expect.poll(() => textOf(mark())).toMatch(/5\.5 down 8\.1 mm, machine left$/);
});

test('a kind of value can be switched off', async () => {
  await workbench().settings('dark', { 'alignbook.inlineValues.verdicts': false });
  await expect.poll(() => textOf(station())).toBe('marks: M2');
});
