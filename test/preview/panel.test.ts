/** The panel's page in every state, width and theme: what is pinned stays, nothing is cut, and nobody is kept out. */
import axe from 'axe-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { sampled } from '../support/amount.ts';
import { PanelPage, startBrowser, stopBrowser, type Shown } from './panel-page.ts';
import { ITEMS, read, STATES, type State } from './states.ts';
import { EDITOR_THEMES, type EditorTheme } from './themes.ts';

beforeAll(startBrowser, 300_000);
afterAll(stopBrowser);

const SIZES = {
  '560': { width: 560, height: 860 },
  '700': { width: 700, height: 860 },
  '900': { width: 900, height: 860 },
  '300': { width: 300, height: 800 },
  '560, low': { width: 560, height: 710 },
} as const;
const NAMES = Object.keys(STATES) as State[];
const THEMES = Object.keys(EDITOR_THEMES) as EditorTheme[];

async function withPanel(state: State, shown: Shown, work: (panel: PanelPage) => Promise<void>): Promise<void> {
  const panel = await PanelPage.open(STATES[state], shown);
  const errors: string[] = [];
  panel.page.on('pageerror', (error) => errors.push(String(error)));
  await work(panel);
  expect(errors).toEqual([]);
  await panel.page.close();
}

const PINNED = ['.strip', '.path', '.bar', '.tape'];

/** Top and height of everything pinned, pixels. */
async function placesIn({ page }: PanelPage): Promise<readonly (readonly [string, number, number])[]> {
  return page.evaluate(
    (pinned) =>
      pinned.map((one) => {
        const { top, height } = document.querySelector(one)!.getBoundingClientRect();
        return [one, top, height] as const;
      }),
    PINNED,
  );
}

describe.each(Object.entries(SIZES))('%s wide', (name, size) => {
  test('strip, path, bar and tape are at the same pixel in every state', async () => {
    const panel = await PanelPage.open(STATES.shoot, size);
    const first = await placesIn(panel);
    for (const state of NAMES) {
      await panel.type(STATES[state]);
      expect([state, await placesIn(panel)]).toEqual([state, first]);
      await panel.picture(`${name} ${state}`);
    }
    await panel.page.close();
  });

  test('and while marks are typed, letter by letter, placed, tried and logged', async () => {
    const panel = await PanelPage.open(STATES.read, size);
    const first = await placesIn(panel);
    let looked = 0;
    const unmoved = async () => {
      expect(await placesIn(panel)).toEqual(first);
      looked++;
    };
    const typed = (near: string, far: string) => panel.type(read(near, far));
    const [near, far] = ['0.5 right 12.5 up', '2.5 right 3.0 down'];
    for (let k = 1; k <= near.length; k++) await typed(near.slice(0, k), '').then(unmoved);
    for (let k = 1; k <= far.length; k += 3) await typed(near, far.slice(0, k)).then(unmoved);
    await panel.type(STATES.read);
    const tape = (await panel.page.locator('.tape').boundingBox())!;
    for (const at of [0.55, 0.4]) {
      await panel.page.mouse.move(tape.x + tape.width * at, tape.y + tape.width * 0.45, { steps: 4 });
      await unmoved();
      await panel.page.mouse.click(tape.x + tape.width * at, tape.y + tape.width * 0.45);
      await panel.page.waitForTimeout(100);
      await unmoved();
    }
    expect(panel.text).not.toMatch(/(near|far): ?\n/);
    await panel.type(STATES.turn);
    await panel.page.getByLabel('M1 A').focus();
    for (let k = 0; k < 6; k++) {
      await panel.page.keyboard.press('ArrowRight');
      await unmoved();
    }
    await panel.page.getByText('trial, not logged').waitFor();
    await unmoved();
    await panel.page.getByRole('button', { name: 'Log These Turns' }).click();
    await panel.page.waitForTimeout(100);
    await unmoved();
    console.log(`${looked} times looked at ${name}`);
    await panel.page.close();
  });

  test.each([1, 1.2])('no text of the strip or the path is cut, with letters %d times as wide', async (wider) => {
    const panel = await PanelPage.open(STATES.shoot, { ...size, wider });
    for (const state of NAMES) {
      await panel.type(STATES[state]);
      expect([state, await cut(panel)]).toEqual([state, []]);
    }
    await panel.page.close();
  });
});

/** Texts that are larger than the box that clips them, or lie on others. */
function cut({ page }: PanelPage): Promise<string[]> {
  return page.evaluate(() => {
    const strip = document.querySelector('.strip')!.getBoundingClientRect();
    const text = document.querySelector('.strip .text')!;
    const spans = [...document.querySelectorAll<HTMLElement>('.sentence, .why span')].filter(
      (one) => one.offsetParent !== null,
    );
    const inside = (one: Element, box: DOMRect) => {
      const { top, bottom, left, right } = one.getBoundingClientRect();
      return top >= box.top - 1 && bottom <= box.bottom + 1 && left >= box.left - 1 && right <= box.right + 1;
    };
    const path = document.querySelector('.path')!.getBoundingClientRect();
    const words = [...document.querySelectorAll<HTMLElement>('.station .act, .station .name, .station .word')].filter(
      (one) => one.textContent !== '' && one.offsetParent !== null,
    );
    return [
      ...(text.scrollHeight > text.clientHeight + 1 || text.scrollWidth > text.clientWidth + 1 ? ['the strip'] : []),
      ...spans.filter((one) => !inside(one, strip)).map((one) => one.textContent),
      ...words
        .filter((one) => {
          const { top, bottom } = one.getBoundingClientRect();
          return top < path.top - 1 || bottom > path.bottom + 1;
        })
        .map((one) => one.textContent),
      ...words.flatMap((one, k) =>
        words
          .slice(0, k)
          .filter((other) => {
            const [a, b] = [one.getBoundingClientRect(), other.getBoundingClientRect()];
            const across = Math.min(a.right, b.right) - Math.max(a.left, b.left);
            return across > 1 && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 3;
          })
          .map((other) => `${other.textContent} / ${one.textContent}`),
      ),
    ];
  });
}

describe('nobody is kept out', () => {
  const WIDE = { '560': SIZES['560'], '300': SIZES['300'], '200 % of 560': { width: 280, height: 430 } };
  const cases = THEMES.flatMap((theme) => Object.entries(WIDE).map(([name, size]) => [theme, name, size] as const));
  test.each(cases)('%s, %s', async (theme, _name, size) => {
    const panel = await PanelPage.open(STATES.turn, { ...size, theme });
    await panel.page.evaluate(axe.source);
    for (const state of sampled(NAMES)) {
      await panel.type(STATES[state]);
      expect([state, await violations(panel), await small(panel)]).toEqual([state, [], []]);
    }
    await panel.picture(`turn ${theme} ${size.width}`);
    for (const name of ['Beam path and clearance', 'In numbers']) {
      await panel.page.getByRole('button', { name }).click();
      expect([name, await violations(panel), await small(panel)]).toEqual([name, [], []]);
    }
    await panel.page.close();
  });
});

async function violations({ page }: PanelPage): Promise<string[]> {
  const { violations: found } = await page.evaluate(() => (globalThis as unknown as { axe: typeof axe }).axe.run());
  return found.flatMap(({ id, nodes }) => nodes.map(({ html, failureSummary }) => `${id}: ${html} ${failureSummary}`));
}

/** Whatever can be clicked, and is under 24 × 24 pixels. */
function small({ page }: PanelPage): Promise<string[]> {
  return page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>('button, input, .tape .mark')].flatMap((one) => {
      // A tick in a label is hit by the whole label.
      const hit = one.closest('label.check') ?? one;
      const { width, height } = hit.getBoundingClientRect();
      return width < 23.9 || height < 23.9 ? [`${one.outerHTML.slice(0, 90)}: ${width} × ${height}`] : [];
    }),
  );
}

test('two marks are read with the keys alone, one after the other', () =>
  withPanel('read', SIZES['560'], async (panel) => {
    const { page } = panel;
    await page.locator('.tape').focus();
    for (const key of ['ArrowRight', 'ArrowRight', 'ArrowRight', 'ArrowDown']) await page.keyboard.press(key);
    await page.locator('.tag').getByText('1.5 right 0.5 down').waitFor();
    await page.locator('.shot.asked').getByText('gantry near').waitFor();
    await page.keyboard.press('Enter');
    await page.locator('.shot.asked').getByText('gantry far').waitFor();
    await page.keyboard.press('Shift+ArrowLeft');
    await page.keyboard.press('Alt+ArrowUp');
    await page.locator('.tag').getByText('2.5 left 0.05 up').waitFor();
    await page.keyboard.press('Enter');
    await expect.poll(() => panel.text.slice(-60)).toMatch(/near: 1.5 right 0.5 down\n {2}far: 2.5 left 0.05 up\n$/);
  }));

test('what the keys read is what stands in the text', async () => {
  const panel = await PanelPage.open(STATES.read, SIZES['560']);
  await panel.page.locator('.tape').focus();
  await panel.page.keyboard.press('c');
  await expect.poll(() => panel.text).toContain('near: centre\n');
  await panel.page.keyboard.press('n');
  await expect.poll(() => panel.text).toContain('far: none\n');
  await panel.page.close();
});

test('a mark is read where the pointer is, snapped to the reading step, and the value stands under it', () =>
  withPanel('read', SIZES['560'], async ({ page }) => {
    const field = await fieldOf(page);
    await page.mouse.move(field.x + field.per * 1.6, field.y + field.per * 2.1);
    await page.locator('.tag').getByText('1.5 right 2.0 down').waitFor();
    await page.locator('.shot.asked').getByText('under the pointer').waitFor();
    expect(await page.locator('.shot.asked .reading').allTextContents()).toEqual([
      '1.5 right machine left',
      '2.0 down',
    ]);
    await page.mouse.click(field.x + field.per * 1.6, field.y + field.per * 2.1);
    await page.locator('.shot.asked').getByText('gantry far').waitFor();
  }));

/** The centre of the aperture and the scale, from the ring of the limit. */
async function fieldOf(page: PanelPage['page']): Promise<{ x: number; y: number; per: number }> {
  const { x, y, width, height } = (await page.locator('.tape .limit').boundingBox())!;
  return { x: x + width / 2, y: y + height / 2, per: width / 2 / 2 };
}

test('where no cell has a place for the mark yet, the advised shot is logged with it', async () => {
  const panel = await PanelPage.open(STATES.shoot, SIZES['560']);
  const { x, y, per } = await fieldOf(panel.page);
  await panel.page.mouse.click(x + per, y - per);
  await expect
    .poll(() => panel.text.slice(STATES.shoot.length))
    .toMatch(/^---\nmarks: M2\nshots:\n {2}near: 1 right 1 up\n {2}far: ?\n$/);
  await panel.page.locator('.shot.asked').getByText('gantry far').waitFor();
  await panel.page.mouse.click(x - per, y);
  await expect.poll(() => panel.text).toMatch(/far: 1 left 0 up\n$/);
  await panel.page.close();
});

test('near an even chance both ways stand in a table, and each has a button that logs it', async () => {
  for (const [button, first] of [
    ['Shoot Again', 'marks: M2'],
    ['Log Turn', 'adjust: M1'],
  ] as const) {
    const panel = await PanelPage.open(STATES.choose, SIZES['560']);
    expect(await panel.page.locator('.sentence').textContent()).toBe('M2 is borderline: choose');
    expect(await panel.page.locator('.choice tbody tr').count()).toBe(2);
    await panel.picture(`choose ${button}`);
    await panel.page.getByRole('button', { name: button }).click();
    await expect.poll(() => panel.text.slice(STATES.choose.length).split('\n')[1]).toBe(first);
    await panel.page.close();
  }
});

test('zooming with wheel and keys keeps the point under the pointer, and Fit takes it back', () =>
  withPanel('turn', SIZES['560'], async ({ page }) => {
    const before = await fieldOf(page);
    const at = { x: before.x + 60, y: before.y - 40 };
    await page.mouse.move(at.x, at.y);
    await page.mouse.wheel(0, -300);
    await expect.poll(async () => (await fieldOf(page)).per).toBeGreaterThan(before.per * 1.5);
    const after = await fieldOf(page);
    expect((at.x - after.x) / after.per).toBeCloseTo((at.x - before.x) / before.per, 1);
    expect((at.y - after.y) / after.per).toBeCloseTo((at.y - before.y) / before.per, 1);
    await page.locator('.tape').focus();
    await page.keyboard.press('0');
    await expect.poll(async () => (await fieldOf(page)).per).toBeCloseTo(before.per, 3);
    for (let k = 0; k < 30; k++) await page.keyboard.press('+');
    // 2 mm across at the closest.
    const { width } = (await page.locator('.tape').boundingBox())!;
    expect((await fieldOf(page)).per).toBeCloseTo(width / 2, 0);
  }));

test('every mark, station, shot and slider is reached with Tab or arrows, and has a name', () =>
  withPanel('turn', SIZES['560'], async ({ page }) => {
    const names: string[] = [];
    for (let k = 0; k < 40; k++) {
      await page.keyboard.press('Tab');
      names.push(
        await page.evaluate(() => {
          const one = document.activeElement!;
          return one.getAttribute('aria-label') ?? one.textContent ?? '';
        }),
      );
    }
    for (const name of [
      'Log Step',
      /^M2: outside/,
      'This round',
      'Along beam',
      /^Tape on M2/,
      /^N gantry near M1 \(rear\): 0\.5 right \(machine left\), 0\.5 up/,
      /^F gantry far from M1 \(front\): 2\.5 right/,
      /gantry near.*0\.5 right/,
      'M1 A',
      'M1 B',
      'M1 C',
      /Beam path/,
    ])
      expect(names).toContainEqual(typeof name === 'string' ? name : expect.stringMatching(name));
    await page.getByLabel(/^M2: outside/).focus();
    await page.keyboard.press('ArrowRight');
    await page
      .getByLabel(/^Tape on M3/)
      .first()
      .waitFor();
    await page.locator('.shot').first().focus();
  }));

test('the sliders start at the advice, stand beside the tape, and what they try is seen there', () =>
  withPanel('turn', { width: 560, height: 830 }, async ({ page }) => {
    const values = await page
      .locator('.slider input')
      .evaluateAll((all) => all.map((one) => Number((one as HTMLInputElement).value)));
    expect(values).toEqual([-0.25, 0.125, 0]);
    for (const part of ['.tape', '.slider >> nth=0', '.slider >> nth=2'])
      expect(
        await page.locator(part).evaluate((one) => {
          const { top, bottom } = one.getBoundingClientRect();
          return top >= 0 && bottom <= innerHeight;
        }),
      ).toBe(true);
    const cross = () => page.locator('.tape ellipse').first().getAttribute('transform');
    const before = await cross();
    await page.getByLabel('M1 A').focus();
    await page.keyboard.press('ArrowLeft');
    await expect.poll(cross).not.toBe(before);
    await page.getByText('trial, not logged').waitFor();
    await page.getByRole('button', { name: 'Back to Advice' }).click();
    await expect.poll(cross).toBe(before);
    expect(await page.getByText('trial, not logged').count()).toBe(0);
  }));

test('the checks that are ticked are logged, and the others stay open', async () => {
  const panel = await PanelPage.open(STATES['make safe'], SIZES['560']);
  const button = panel.page.getByRole('button', { name: 'Log Checks' });
  expect(await button.isDisabled()).toBe(true);
  await panel.page.getByLabel(ITEMS[1]!).check();
  await panel.page.getByLabel(ITEMS[3]!).check();
  await button.click();
  await panel.page.getByText('Make safe (2 open)').waitFor();
  expect(panel.text.slice(STATES['make safe'].length)).toBe(
    `---\nchecks: make safe\ndone:\n  - ${ITEMS[1]}\n  - ${ITEMS[3]}\n`,
  );
  expect(await panel.page.locator('.check').allTextContents()).toEqual([ITEMS[0], ITEMS[2]]);
  await panel.page.close();
});

test('no place is called by an index', async () => {
  const panel = await PanelPage.open(STATES.shoot, SIZES['560']);
  const seen: string[] = [];
  for (const state of NAMES) {
    await panel.type(STATES[state]);
    for (const station of await panel.page.locator('.station input').all()) {
      await station.click();
      await panel.page.waitForTimeout(60);
      seen.push(...(await panel.page.locator('.shot .place').allTextContents()));
    }
  }
  console.log([...new Set(seen)].join('; '));
  expect(seen.length).toBeGreaterThan(30);
  for (const name of seen) expect(name).toMatch(/^(one place only|(gantry|head) )/);
  await panel.page.close();
});

describe('a machine comes within', () => {
  const running = (page: PanelPage['page']) =>
    page.evaluate(() => document.getAnimations().filter(({ playState }) => playState === 'running').length);
  // Nothing but the last nut is missing.
  test.each([false, true])('with reduced motion: %s', (reducedMotion) =>
    withPanel('borderline', { ...SIZES['560'], reducedMotion }, async (panel) => {
      expect(await running(panel.page)).toBe(0);
      await panel.type(STATES.within);
      await panel.page.getByText('Within: sign off').waitFor();
      const names = await panel.page.evaluate(() =>
        document.getAnimations().map((one) => (one as CSSAnimation).animationName),
      );
      expect(names.toSorted()).toEqual(reducedMotion ? [] : ['closing', 'settling']);
      await panel.page.waitForTimeout(700);
      expect(await running(panel.page)).toBe(0);
      await panel.type(`${STATES.within}---\nnote: later\n`);
      await panel.page.waitForTimeout(50);
      expect(await running(panel.page)).toBe(0);
    }),
  );
});

test('the scale of a round stays: typing moves no mark that is there', async () => {
  const panel = await PanelPage.open(STATES['read one'], SIZES['560']);
  const scale = () => panel.page.locator('.tape .limit').getAttribute('r');
  const before = await scale();
  for (const far of ['3', '30', '3 right', '3 right 1 up']) {
    await panel.type(read('0.5 right 0.5 up', far));
    expect(await scale()).toBe(before);
  }
  await panel.page.getByRole('button', { name: 'Fit' }).click();
  await expect.poll(scale).not.toBe(before);
  await panel.page.close();
});
