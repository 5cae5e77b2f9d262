/** The pictures of README.md: what they show is there, and they stay small. `UPDATE=1` renews them. */
import { expect, test } from 'vitest';
import { example } from './editor/example.ts';
import { useWorkbench } from './editor/use.ts';

/** Bytes: a page with two of them opens at once. */
const MOST = 150_000;
const NAME = 'dory.alignbook.yaml';
/** As found, before the first screw is turned. */
const LOG = example('1-full-service.alignbook.yaml').split('---\npower: lens')[0]!;
const workbench = useWorkbench({ [NAME]: LOG });
const page = () => workbench().page;
const groups = () => page().locator('.editor-group-container');

test('the editor: the log, and beside the marks what they mean', async () => {
  await page().setViewportSize({ width: 1000, height: 640 });
  await workbench().settings('light', { 'editor.minimap.enabled': false, 'editor.scrollBeyondLastLine': false });
  await workbench().show(NAME);
  await workbench().command('View: Toggle Primary Side Bar Visibility');
  await workbench().goTo(LOG.split('\n').length);
  await workbench()
    .statusItem(/M1: [ABC] (in|out)/)
    .waitFor();
  await workbench()
    .line(/marks:.*M2.*outside/)
    .waitFor();
  expect(await workbench().publish('editor', page().locator('.monaco-workbench'))).toBeLessThan(MOST);
});

test('the panel: the marks on the tape, the turn, and where the marks will then be', async () => {
  await page().setViewportSize({ width: 1400, height: 900 });
  await workbench().command('Alignbook: Show Targets');
  const panel = page().frameLocator('iframe.webview.ready').frameLocator('#active-frame');
  await panel.locator('.sentence').waitFor();
  // Away from the title bar, whose tooltip would cover the file's name.
  await page().mouse.move(700, 880);
  await page()
    .locator('.monaco-hover:visible')
    .waitFor({ state: 'detached', timeout: 5000 })
    .catch(() => undefined);
  expect(await panel.locator('.tape svg').first().getAttribute('aria-label')).toBe('Tape on M2, seen along the beam');
  expect(await workbench().publish('panel', groups().last())).toBeLessThan(MOST);
});
