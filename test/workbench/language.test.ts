/** What needs no server: the file's language, its colours, how it is typed. */
import { expect, test } from 'vitest';
import { example } from './editor/example.ts';
import { useWorkbench } from './editor/use.ts';

const BOOK = '1-full-service.alignbook.yaml';
const workbench = useWorkbench({ [BOOK]: example(BOOK), 'typed.alignbook.yaml': '' });

test('a workbook is recognised by its name', async () => {
  await workbench().show(BOOK);
  await workbench().statusItem('Alignbook workbook').waitFor();
});

test('what a cell is, where a mark lies and how far stand out from each other', async () => {
  await workbench().show(BOOK);
  await workbench().goTo(77);
  const line = workbench()
    .line(/shots:.*near:.*0\.5.*right.*far/)
    .first();
  const token = (text: string) => line.locator('span span').filter({ hasText: text }).first().getAttribute('class');
  await expect.poll(async () => new Set(await Promise.all(['shots', '0.5', 'right'].map(token))).size).toBe(3);
});

test('Enter continues a list of shots, and indents what follows a colon', async () => {
  await workbench().show('typed.alignbook.yaml');
  await workbench().statusItem('Spaces: 2').waitFor();
  await workbench().type('marks: M2\nshots:\n', '- centre\ncentre\n');
  expect(await workbench().saved('typed.alignbook.yaml')).toBe('marks: M2\nshots:\n  - centre\n  - centre\n  - ');
});
