/** The record beside the text, as it is read before it is signed: on white paper, whatever the theme. */
import { test } from 'vitest';
import { keepsNobodyOutOfCopy } from './editor/access.ts';
import { example } from './editor/example.ts';
import { useWorkbench } from './editor/use.ts';

const NAME = '1-full-service.alignbook.yaml';
const workbench = useWorkbench({ [NAME]: example(NAME) });
const page = () => workbench().page;
const record = () => page().frameLocator('iframe.webview.ready').frameLocator('#active-frame');

test.each(['light', 'contrast', 'dark'] as const)(
  'it is shown beside the text, and keeps nobody out: %s',
  async (theme) => {
    await workbench().settings(theme);
    await workbench().show(NAME);
    await workbench().command('Alignbook: Show Record');
    await record().locator('h1').filter({ hasText: 'Record of alignment' }).waitFor();
    await workbench().picture(`record ${theme}`);
    await keepsNobodyOutOfCopy(record().locator('html'));
    await page().keyboard.press('Control+1');
  },
);
