/** The pictures that ship: the icons and those of the walkthrough. */
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { chromium, type Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { VERDICT_SIGNS } from '../../src/drawing/index.ts';
import { SHOWN_STATES, type ShownState } from '../../src/model/index.ts';
import { installBrowser } from '../workbench/editor/install.ts';
import { ROOT } from './layers.ts';

const ICONS = join(ROOT, 'shared', 'icons');
const WALKTHROUGH = join(ROOT, 'shared', 'walkthrough');
const PNG = join(ICONS, 'alignbook.png');
/** Pixels: what the editor asks for. */
const SIZE = 128;
/** Of all pixels. Browsers smooth edges in different ways; the mark alone covers 2.5 %. */
const MOST_DIFFERENT = 0.005;
/** Of 255, in any channel. */
const DIFFERENT = 32;

let browser: Browser;
beforeAll(async () => {
  browser = await chromium.launch({ executablePath: installBrowser(), args: ['--no-sandbox'] });
}, 300_000);
afterAll(() => browser.close());

test('the icon of the extension is its SVG (`UPDATE=1` redraws it)', async () => {
  const svg = dataUrl('image/svg+xml', readFileSync(join(ICONS, 'alignbook.svg')));
  if (process.env['UPDATE'] !== undefined) writeFileSync(PNG, Buffer.from(await drawn(svg), 'base64'));
  const { width, height, different } = await compared(svg, dataUrl('image/png', readFileSync(PNG)));
  expect([width, height]).toEqual([SIZE, SIZE]);
  expect(different / (SIZE * SIZE)).toBeLessThan(MOST_DIFFERENT);
});

test('the two icons of the file differ in their ink alone', () => {
  const [light, dark] = ['light', 'dark'].map((theme) => readFileSync(join(ICONS, `file-${theme}.svg`), 'utf8'));
  expect(light).toContain('#3B3B3B');
  expect(light!.replaceAll('#3B3B3B', '#CCCCCC')).toBe(dark);
});

/** Of trees, which take no colours from the theme: the default light and dark ones, each 65 % with its text. */
const INKS = {
  dark: { within: '#A0CF9E', border: '#CCB447', outside: '#E47979', stop: '#E97C77', pale: '#A1A1A1' },
  light: { within: '#396E36', border: '#916D17', outside: '#AA2215', stop: '#B64944', pale: '#6C6C6C' },
} as const;
/** The ground of the side bar. */
const GROUND = { dark: '#181818', light: '#F8F8F8' } as const;

/** The panel's sign as a file. */
function signFile(state: ShownState, theme: keyof typeof INKS): string {
  const { ring, dot, dashes, colour } = VERDICT_SIGNS[state];
  const ink = INKS[theme][colour];
  const line = `  <path d="${ring}" fill="none" stroke="${ink}" stroke-width="1.5"${dashes === undefined ? '' : ` stroke-dasharray="${dashes}"`}/>\n`;
  const area = `  <path d="${dot}" fill="${ink}"/>\n`;
  return `<svg xmlns="http://www.w3.org/2000/svg" width="16" height="16" viewBox="0 0 16 16">\n${ring ? line : ''}${dot ? area : ''}</svg>\n`;
}

describe.each(['dark', 'light'] as const)('the signs of the verdict on a %s ground', (theme) => {
  test.each(SHOWN_STATES)('%s is that of the panel (`UPDATE=1` writes it)', (state) => {
    const path = join(ICONS, `verdict-${state}-${theme}.svg`);
    const svg = signFile(state, theme);
    if (process.env['UPDATE'] !== undefined) writeFileSync(path, svg);
    else expect(readFileSync(path, 'utf8')).toBe(svg);
  });

  test('all are seen on the side bar', () => {
    for (const ink of Object.values(INKS[theme])) expect(contrast(ink, GROUND[theme])).toBeGreaterThan(3.9);
  });
});

test('no two signs have the same shape: none is told by colour alone', () => {
  const shapes = SHOWN_STATES.map((state) => signFile(state, 'dark').replace(/#[0-9A-F]{6}/g, ''));
  expect(new Set(shapes).size).toBe(SHOWN_STATES.length);
});

/** WCAG 2.2. */
function contrast(one: string, other: string): number {
  const [low, high] = [luminance(one), luminance(other)].toSorted((a, b) => a - b) as [number, number];
  return (high + 0.05) / (low + 0.05);
}

function luminance(colour: string): number {
  const [red, green, blue] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

test.each(readdirSync(WALKTHROUGH).filter((file) => file.endsWith('.svg')))(
  '%s takes its colours from the theme, and says in words what it shows',
  (file) => {
    const svg = readFileSync(join(WALKTHROUGH, file), 'utf8');
    const colours = [...svg.matchAll(/(?:fill|stroke)="([^"]*)"/g)].map(([, colour]) => colour!);
    expect(colours.length).toBeGreaterThan(3);
    expect(colours.filter((colour) => colour !== 'none' && !colour.startsWith('var(--vscode-'))).toEqual([]);
    // The editor's page for it takes no style from the file.
    expect(svg).not.toMatch(/style=|<style/);
    expect(svg).toMatch(/<title>.{40,}<\/title>/);
  },
);

function dataUrl(type: string, file: Buffer): string {
  return `data:${type};base64,${file.toString('base64')}`;
}

/** As a PNG, base64. */
function drawn(picture: string): Promise<string> {
  return inPage(`(await canvasOf('${picture}')).canvas.toDataURL('image/png').split(',')[1]`);
}

interface Compared {
  /** Of the second picture by itself. */
  readonly width: number;
  readonly height: number;
  /** Pixels in which the two differ. */
  readonly different: number;
}

function compared(one: string, other: string): Promise<Compared> {
  return inPage(`(async () => {
    const [one, other] = [await canvasOf('${one}'), await canvasOf('${other}')];
    let different = 0;
    for (let at = 0; at < one.data.length; at += 4)
      if ([0, 1, 2, 3].some((channel) => Math.abs(one.data[at + channel] - other.data[at + channel]) > ${DIFFERENT})) different++;
    return { width: other.image.naturalWidth, height: other.image.naturalHeight, different };
  })()`);
}

async function inPage<T>(expression: string): Promise<T> {
  const page = await browser.newPage();
  const result = await page.evaluate<T>(`(async () => {
    async function canvasOf(url) {
      const image = new Image();
      image.src = url;
      await image.decode();
      const canvas = document.createElement('canvas');
      canvas.width = canvas.height = ${SIZE};
      const drawing = canvas.getContext('2d');
      drawing.drawImage(image, 0, 0);
      return { image, canvas, data: drawing.getImageData(0, 0, ${SIZE}, ${SIZE}).data };
    }
    return ${expression};
  })()`);
  await page.close();
  return result;
}
