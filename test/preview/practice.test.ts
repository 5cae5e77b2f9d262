/** Practice in the panel as a learner uses it: expect, fire, read, compare, turn, ask, close. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { expressions, practiceWorkbook, threads } from '../../src/language/index.ts';
import { PanelPage, startBrowser, stopBrowser } from './panel-page.ts';

beforeAll(startBrowser, 60_000);
afterAll(stopBrowser);

const LEVEL_2 = practiceWorkbook({ threads, expressions }, { seed: 12, level: 2 });
const SIZE = { width: 560, height: 980 };

test('a learner expects, fires, reads and compares; the advice opens when it is asked for', async () => {
  const panel = await PanelPage.open(LEVEL_2, SIZE);
  const { page } = panel;
  const strip = page.getByRole('region', { name: 'Practice', exact: true });
  expect(await strip.textContent()).toContain('PRACTICEsimulated machine · level 2, near and far · seed 12');
  // Make safe comes first here, too.
  for (const box of await page.getByRole('checkbox').all()) await box.check();
  await page.getByRole('button', { name: 'Log Checks' }).click();
  await panel.picture('practice-choice');
  expect(await page.locator('.sentence').first().textContent()).toBe('Your choice');
  await page.getByRole('radio', { name: /M2/ }).click();
  await page.getByRole('button', { name: 'Shoot M2' }).click();
  await page.getByRole('textbox').fill('1.0 left 2.0 up');
  await panel.picture('practice-expect');
  await page.getByRole('button', { name: 'Fire' }).click();
  const tape = page.getByRole('application', { name: /^Burnt tape on M2/ });
  await tape.hover({ position: { x: 170, y: 155 } });
  await panel.picture('practice-read');
  expect(panel.text).toContain('x-expected: {near: 1.0 left 2.0 up}');
  expect(await page.getByRole('button', { name: 'Log Mark' }).isEnabled()).toBe(true);
  await tape.click({ position: { x: 170, y: 155 } });
  await page.getByRole('button', { name: 'Fire' }).click();
  await tape.focus();
  for (const key of ['ArrowRight', 'ArrowRight', 'ArrowUp', 'Shift+ArrowUp', 'Shift+ArrowUp', 'Enter'])
    await page.keyboard.press(key);
  await page.getByText('it came').waitFor();
  await panel.picture('practice-compare');
  expect(await page.locator('.bar').textContent()).toContain('M2');
  expect(panel.text).toMatch(/near: \S+ \w+ \S+ \w+\n {2}far: 1 right 5.5 up\n$/);
  await page.getByRole('button', { name: /Show Advice · asked 0 times/ }).click();
  await page.getByRole('button', { name: /Show Advice · asked 1 time/ }).waitFor();
  await panel.picture('practice-advice');
  expect(await page.getByRole('button', { name: /Log/ }).count()).toBeGreaterThan(0);
  await page.getByRole('button', { name: 'Closing Sheet' }).click();
  await page.getByRole('heading', { name: /Your way and the shortest/ }).waitFor();
  await panel.picture('practice-closing');
});
