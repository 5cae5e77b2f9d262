/** What the server finds, as it is seen in the editor. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { example } from './editor/example.ts';
import { useWorkbench } from './editor/use.ts';

const MISTAKEN = example('1-full-service.alignbook.yaml').replace('date: 2026-03-07 09:10', 'dat: 2026-03-07 09:10');
const workbench = useWorkbench({ 'mistaken.alignbook.yaml': MISTAKEN });

test('an error is underlined once, at its place, and reported once', async () => {
  await workbench().show('mistaken.alignbook.yaml');
  await workbench().goTo(MISTAKEN.split('\n').indexOf('dat: 2026-03-07 09:10') + 1);
  const underlined = workbench().editor.locator('.squiggly-error');
  await underlined.first().waitFor();
  expect(await underlined.count()).toBe(1);
  await workbench().command('View: Focus Problems');
  const said = workbench().page.locator('.markers-panel .monaco-list-row').filter({ hasText: '`dat`' });
  await said.first().waitFor();
  expect(await said.count()).toBe(1);
  await workbench().picture('finding');
});

test('its code leads to the lines about it', async () => {
  const page = readFileSync(new URL('../../shared/findings.md', import.meta.url), 'utf8');
  const said = await workbench().hover(workbench().line('dat:').getByText('dat', { exact: true }));
  await said.getByRole('link', { name: 'cell.key' }).click();
  await workbench().tab('findings.md').waitFor();
  const status = workbench().statusItem(/^Ln \d/);
  const line = page.split('\n').indexOf('## cell.key') + 1;
  await expect.poll(() => status.textContent()).toBe(`Ln ${line}, Col 1`);
  await workbench().page.keyboard.press('Shift+End');
  await expect.poll(() => status.textContent()).toBe(`Ln ${line}, Col 12 (11 selected)`);
  await workbench().picture('finding-page');
});
