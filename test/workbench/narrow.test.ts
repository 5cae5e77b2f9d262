/** The panel beside a text that takes most of the window: 300 pixels, and everything still to be read. */
import { expect, test } from 'vitest';
import { LIMITS, MACHINE } from '../support/log.ts';
import { keepsNobodyOut } from './editor/access.ts';
import { useWorkbench } from './editor/use.ts';

const NAME = 'narrow.alignbook.yaml';
const BEAM = 'source:\n  beam: {diameter: 6 mm, divergence: 3 mrad}\n';
const LOG = [
  MACHINE.replace('source:\n', BEAM),
  LIMITS,
  'session: before the holidays\ndate: 2026-01-10\n',
  'marks: M1\nshots: centre\n',
  'marks: M2\nshots: {near: 1 right 0.5 up, far: 1 right 1 up}\n',
  'session: spring service after the move to the larger room\ndate: 2026-03-07\n',
  'marks: M1\nshots: centre\n',
  'marks: M2\nshots: {near: 1 right 0.5 up, far: none}\n',
  'adjust: M1\nturn: {B: out 1/8}\n',
  'marks: M2\nshots: {near: 1.5 right 2.0 down, far: 6.0 right 5.5 down}\n',
].join('---\n');
const WIDTH = 300;
const workbench = useWorkbench({ [NAME]: LOG });
const page = () => workbench().page;
const panel = () => page().frameLocator('iframe.webview.ready').frameLocator('#active-frame');

test('at 300 pixels nothing leaves the page, whichever station is shown', async () => {
  // As high as the panel is long, so that a picture shows all of it.
  await page().setViewportSize({ width: 1200, height: 2400 });
  await workbench().show(NAME);
  await workbench().command('Alignbook: Show Targets');
  await panel().locator('h1').filter({ hasText: NAME }).waitFor();
  await narrow();
  for (const name of ['In numbers', 'Visits, drift', 'Beam path and clearance', 'Round after round'])
    await panel().getByRole('button', { name }).click();
  for (const station of ['M1', 'M3', 'lens', 'M2']) {
    await panel()
      .getByLabel(new RegExp(`^${station}:`))
      .click();
    await panel().locator(`svg[aria-label^="Tape on ${station},"]`).waitFor();
    expect(await outside(), station).toEqual([]);
  }
  await panel().getByRole('button', { name: 'More' }).click();
  expect(await outside()).toEqual([]);
  await panel().getByRole('button', { name: 'More' }).click();
  await panel()
    .locator('.shot')
    .filter({ hasText: /gantry far/ })
    .click();
  await panel().getByLabel('M1 A').focus();
  for (let k = 0; k < 4; k++) await page().keyboard.press('ArrowRight');
  await panel().getByText('trial, not logged').waitFor();
  expect(await outside()).toEqual([]);
});

test.each(['light', 'dark', 'contrast'] as const)('it keeps nobody out: %s', async (theme) => {
  await workbench().settings(theme);
  await workbench().picture(`panel narrow ${theme}`);
  await keepsNobodyOut(panel().locator('main'));
});

/** The border between text and panel is drawn to the right. */
async function narrow(): Promise<void> {
  const frame = page().locator('iframe.webview.ready');
  const { x, y, width } = (await frame.boundingBox())!;
  await page().mouse.move(x, y + 300);
  await page().mouse.down();
  await page().mouse.move(x + width - WIDTH, y + 300, { steps: 10 });
  await page().mouse.up();
  await expect.poll(async () => Math.abs((await frame.boundingBox())!.width - WIDTH)).toBeLessThan(3);
}

/** What cannot be seen without scrolling sideways, but for tables that scroll by themselves. */
function outside(): Promise<string[]> {
  return panel()
    .locator('html')
    .evaluate((html) => {
      const width = html.clientWidth;
      const wide = html.scrollWidth > width ? [`the page is ${html.scrollWidth} wide of ${width}`] : [];
      // What is drawn on the tape ends at its edge; its words must be inside.
      const isClipped = (one: Element) => one.tagName !== 'text' && one.parentElement?.closest('.tape svg') != null;
      const all = [...html.querySelectorAll('main *')].filter(
        (one) => !one.closest('.scroll') && !one.closest('title, desc') && !isClipped(one),
      );
      return [
        ...wide,
        ...all
          .filter((one) => one.getBoundingClientRect().right > width + 0.5)
          .map(
            (one) =>
              `${one.tagName} ${one.textContent.slice(0, 40)}: ${Math.round(one.getBoundingClientRect().right)} of ${width}`,
          ),
      ];
    });
}
