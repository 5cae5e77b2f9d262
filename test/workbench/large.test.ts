/**
 * A workbook of ten thousand cells: the panel opens, and keeps up with whoever works. Times are printed, not asserted.
 */
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Frame } from 'playwright-core';
import { LIMITS, MACHINE } from '../support/log.ts';
import { useWorkbench } from './editor/use.ts';

const CELLS = 10_000;
const ROUNDS_A_VISIT = 40;
const LARGE = 'large.alignbook.yaml';
const SMALL = 'small.alignbook.yaml';
const TEXT = workbookOf(CELLS);
/** In the last visit. */
const ROUNDS = TEXT.slice(TEXT.lastIndexOf('session:')).match(/marks: M2/g)!.length;
const workbench = useWorkbench({ [LARGE]: TEXT, [SMALL]: workbookOf(20) });
const page = () => workbench().page;
const panel = () => page().frameLocator('iframe.webview.ready').frameLocator('#active-frame');

/** What a page notes of itself, before any other script runs in it. Times are ms since the epoch. */
interface Noted {
  readonly began: number;
  /** Of the frame that the editor puts around the page: when our page stood in it, and when the tape did. */
  readonly page?: number;
  readonly picture?: number;
  /** Tasks of more than 50 ms, as the browser reports them; `self` is the page's own work. */
  readonly tasks: readonly { readonly name: string; readonly duration: number }[];
}

const remarks: string[] = [];

beforeAll(() => page().context().addInitScript(takeNotes));
afterAll(() => console.log(remarks.join('\n')));

test('it opens with the results of the evaluated workbook', async () => {
  await look(LARGE);
  await open(LARGE, 'first');
  await panel().getByText(`round ${ROUNDS} of ${ROUNDS}`).first().waitFor();
  expect(await panel().locator('.tape svg').first().getAttribute('aria-label')).toBe('Tape on M2, seen along the beam');
  await workbench().picture('panel large');
});

test('another station is shown when it is chosen', async () => {
  const before = (await notes()).tasks.length;
  for (const station of ['M1', 'M3', 'lens', 'M2']) {
    await panel()
      .getByLabel(new RegExp(`^${station}:`))
      .click();
    await panel().locator(`svg[aria-label^="Tape on ${station},"]`).waitFor();
  }
  await told('stations switched', before);
});

test('it follows what is typed at the end', async () => {
  const before = (await notes()).tasks.length;
  await workbench().tab(LARGE).click();
  await page().keyboard.press('Control+End');
  await workbench().type('---\nmarks: M2\n');
  await page().keyboard.press('Home');
  await workbench().type('shots: {near: 1 right 0 up, far: 1.5 right 0 up');
  await panel()
    .getByText(`round ${ROUNDS + 1} of ${ROUNDS + 1}`)
    .first()
    .waitFor();
  await panel()
    .getByRole('button', { name: /gantry far from M1 \(front\): 1\.5 right/ })
    .waitFor();
  await told('typed at the end', before);
  await workbench().picture('panel large typed');
});

test('it stays a text: as a notebook it would take long, as a message states', async () => {
  await workbench().tab(LARGE).click();
  await workbench().command('Alignbook: Show as Notebook');
  await page()
    .getByText(`This workbook has ${(CELLS + 1).toLocaleString('en')} cells.`)
    .first()
    .waitFor();
  await workbench().picture('large as notebook');
  expect(await page().locator('.notebook-editor').count()).toBe(0);
  expect(await workbench().tab(LARGE).count()).toBe(1);
});

test('a small workbook takes as long', async () => {
  await workbench().command('File: Save');
  const small = await reopened(SMALL);
  const large = await reopened(LARGE);
  remarks.push(`opened again, from our page: ${(large / small).toFixed(1)} times what a workbook of 20 cells takes`);
});

/** The active editor, its end visible and evaluated. */
async function look(file: string): Promise<void> {
  await workbench().show(file);
  await page().keyboard.press('Control+End');
  await workbench()
    .statusItem(/Shoot |M\d: |Make safe/)
    .waitFor({ timeout: 60_000 });
  await page()
    .locator('.view-line')
    .filter({ hasText: /outside/ })
    .last()
    .waitFor({ timeout: 60_000 });
}

async function reopened(file: string): Promise<number> {
  await workbench().tab('Targets').locator('.codicon-close').click();
  await page().locator('iframe.webview').waitFor({ state: 'detached' });
  await look(file);
  return open(file, 'again');
}

/** From the command to the picture, ms. */
async function open(file: string, time: string): Promise<number> {
  const asked = page().evaluate(
    () =>
      new Promise<number>((resolve) =>
        addEventListener('click', () => resolve(performance.timeOrigin + performance.now()), {
          capture: true,
          once: true,
        }),
      ),
  );
  await workbench().command('Alignbook: Show Targets');
  await panel().locator('svg[aria-label^="Tape on"]').waitFor();
  const { began, page: ours, picture } = await frameNotes();
  const start = await asked;
  remarks.push(
    `${file} opened ${time}: ${Math.round(picture - start)} ms from the command to the picture, ${Math.round(picture - began)} ms of it from the first script of its frame, ${Math.round(picture - ours)} ms from our page`,
  );
  await told(`${file} opened ${time}`, 0);
  return picture - ours;
}

async function told(what: string, from: number): Promise<void> {
  // The browser reports a task some time after its end.
  await page().waitForTimeout(300);
  const tasks = (await notes()).tasks.slice(from);
  const list = (of: typeof tasks) =>
    of.length === 0 ? 'none' : of.map(({ duration }) => `${Math.round(duration)} ms`).join(', ');
  remarks.push(
    `${what}: long tasks of the panel: ${list(tasks.filter(({ name }) => name === 'self'))}; of the editor around it: ${list(tasks.filter(({ name }) => name !== 'self'))}`,
  );
}

async function frame(): Promise<Frame> {
  return (await (await panel().locator('main').elementHandle())!.ownerFrame())!;
}

/** Of the frame that the editor puts around the page. */
async function frameNotes(): Promise<Required<Noted>> {
  const around = (await frame()).parentFrame()!;
  const read = () => around.evaluate(() => (globalThis as unknown as { noted: Required<Noted> }).noted);
  await expect.poll(async () => (await read()).picture).toBeDefined();
  return read();
}

async function notes(): Promise<Noted> {
  return (await frame()).evaluate(() => (globalThis as unknown as { noted: Noted }).noted);
}

/** Runs in the page. */
function takeNotes(): void {
  const now = () => performance.timeOrigin + performance.now();
  const noted: { began: number; page?: number; picture?: number; tasks: { name: string; duration: number }[] } = {
    began: now(),
    tasks: [],
  };
  Object.assign(globalThis, { noted });
  new PerformanceObserver((list) => {
    for (const { name, duration } of list.getEntries()) noted.tasks.push({ name, duration });
  }).observe({ type: 'longtask', buffered: true });
  // Of the frame around the page: the page's own requests are dropped when its content is set.
  const look = () => {
    const shows = (what: string) =>
      Array.from({ length: frames.length }, (_, k) => frames[k]!.document).some((one) => one.querySelector(what));
    if (shows('main')) noted.page ??= now();
    if (shows('svg[aria-label^="Tape on"]')) noted.picture = now();
    else requestAnimationFrame(look);
  };
  if (window.parent === top && window !== top) look();
}

/** Visit after visit of marks and turns, no two rounds alike. */
function workbookOf(count: number): string {
  const cells = [MACHINE, LIMITS];
  for (let round = 0; cells.length < count; round++) {
    if (round % ROUNDS_A_VISIT === 0)
      cells.push(`session: visit ${round / ROUNDS_A_VISIT + 1}\n`, 'marks: M1\nshots: centre\n');
    const tenths = (of: number) => ((round * of) % 31) / 10;
    cells.push(
      `marks: M2\nshots: {near: ${tenths(3)} right ${tenths(5)} up, far: ${tenths(7)} left ${tenths(2)} down}\n`,
      `adjust: M1\nturn: {${'AB'[round % 2]!}: ${round % 4 < 2 ? 'in' : 'out'} 1/16}\n`,
    );
  }
  return cells.slice(0, count).join('---\n');
}
