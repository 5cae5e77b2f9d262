/** The colours that are derived from the editor's four default themes: whether text, lines and signs can be seen. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { PanelPage, startBrowser, stopBrowser } from './panel-page.ts';
import { STATES } from './states.ts';
import { EDITOR_THEMES, type EditorTheme } from './themes.ts';

beforeAll(startBrowser, 300_000);
afterAll(stopBrowser);

const TEXTS = ['ink', 'pale', 'within', 'border', 'outside', 'stop'] as const;
const LINES = ['l0', 'l1', 'l2', 'l3', 'l4', 'in', 'out', 'ink', 'within', 'border', 'outside', 'stop'] as const;

test.each(Object.keys(EDITOR_THEMES) as EditorTheme[])('%s', async (theme) => {
  const panel = await PanelPage.open(STATES.turn, { width: 560, height: 860, theme });
  const luminance = await panel.page.evaluate(
    (names) => {
      const context = document.createElement('canvas').getContext('2d')!;
      const probe = document.querySelector('#sheet')!.appendChild(document.createElement('i'));
      return Object.fromEntries(
        names.map((name) => {
          probe.style.color = `var(--${name})`;
          context.fillStyle = getComputedStyle(probe).color;
          context.fillRect(0, 0, 1, 1);
          // WCAG 2, relative luminance.
          const [r, g, b] = [...context.getImageData(0, 0, 1, 1).data].map((part) =>
            part / 255 <= 0.04045 ? part / 255 / 12.92 : ((part / 255 + 0.055) / 1.055) ** 2.4,
          );
          return [name, 0.2126 * r! + 0.7152 * g! + 0.0722 * b!];
        }),
      );
    },
    [...new Set([...TEXTS, ...LINES, 'paper', 'ground', 'allowed'])],
  );
  const contrast = (one: string, other: string) => {
    const [low, high] = [luminance[one]!, luminance[other]!].toSorted((a, b) => a - b);
    return (high! + 0.05) / (low! + 0.05);
  };
  const texts = TEXTS.map((name) => [name, contrast(name, 'paper')] as const);
  const lines = LINES.flatMap((name) =>
    ['paper', 'ground', 'allowed'].map((on) => [`${name} on ${on}`, contrast(name, on)] as const),
  );
  const least = (all: readonly (readonly [string, number])[]) => all.toSorted((a, b) => a[1] - b[1])[0]!;
  console.log(`${theme}: text ${least(texts).join(' ')}, lines ${least(lines).join(' ')}`);
  expect(texts.filter(([, ratio]) => ratio < 4.5)).toEqual([]);
  expect(lines.filter(([, ratio]) => ratio < 3)).toEqual([]);
  // What is inside the limit is the lighter, and seen as such, but where the theme has lines for it.
  if (!theme.includes('contrast')) expect(luminance['allowed']).toBeGreaterThan(luminance['ground']!);
  await panel.page.close();
});
