/** The same extension where there is no Node: in the browser, with the server in a worker. */
import { expect, test } from 'vitest';
import { useWorkbench } from '../editor/use.ts';
import { PLACE } from '../editor/web.ts';

const workbench = useWorkbench({ 'wrong.alignbook.yaml': 'machin: heron\n' });

test('findings come from a worker', async () => {
  const { page } = workbench();
  const files = await page.evaluate<string>(
    'location.origin + "/" + /stable-[0-9a-f]+/.exec(document.head.innerHTML)[0] + "/static"',
  );
  await workbench().command('Developer: Install Extension from Location');
  await workbench().answer('Install Extension from Location', `${files}/${PLACE}`);
  await workbench().show('wrong.alignbook.yaml');
  await workbench().editor.locator('.squiggly-error').first().waitFor();
  await workbench().command('Developer: Show Running Extensions');
  const row = page.locator('.runtime-extensions-editor .monaco-list-row').filter({ hasText: 'Alignbook' });
  await expect.poll(() => row.textContent()).toMatch(/web worker/i);
  await workbench().picture('web');
});
