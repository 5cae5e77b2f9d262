/**
 * Every figure of every example in every theme, as narrow as a panel and as wide as paper, on one page in a real
 * browser:
 * `test/output/figures/` is to be looked at after a change. Nothing written may lie on anything else that is written.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import axe from 'axe-core';
import { chromium, type Browser, type Page } from 'playwright-core';
import { h, type FunctionComponent } from 'preact';
import { renderToString } from 'preact-render-to-string';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  PathTable,
  RoundsTable,
  ScrewsTable,
  TargetTable,
  THEMES,
  toSvg,
  type ThemeName,
} from '../../src/drawing/index.ts';
import {
  burnFigureOf,
  burnsAtEnd,
  pathFigure,
  roundsFigure,
  panelView,
  targetFigure,
  visitsFigure,
  type Book,
} from '../../src/language/index.ts';
import type { Figure } from '../../src/model/index.ts';
import { CENTRED } from '../support/log.ts';
import { after, bookOf } from '../support/workbook.ts';
import { installBrowser } from '../workbench/editor/install.ts';
import { COUNT } from '../support/amount.ts';

const OUT = join(import.meta.dirname, '..', 'output', 'figures');
/** Pixels: what a panel of 300 leaves for a figure, a notebook's, and paper. Words have least room in the narrowest. */
const WIDTHS = [266, 300, 380].slice(0, COUNT < 500 ? 1 : 3);
/**
 * Where words lie and how pictures are described does not depend on the colours, nor the contrast of tables on the
 * width: only one theme is drawn in all widths, and described pictures are checked in its narrowest.
 */
const widthsIn = (theme: ThemeName) => (theme === 'light' ? WIDTHS : WIDTHS.slice(0, 1));

const read = (name: string) => readFileSync(join('examples', `${name}.alignbook.yaml`), 'utf8');
const BORROWED = { 'machines/bollard.alignbook.yaml': read('machines/bollard') };

/** Marks of which one part alone was read. */
const ONE_WAY = after(
  CENTRED.M1,
  'marks: M2\nshots: {near: 1.5 right, far: 2 down}\n',
  'marks: M3\nshots:\n  - {at: near, mark: 0 right}\n  - {at: far, with: {M2: far}, mark: 0.5 left}\n',
  'marks: lens\nshots:\n  - {at: here, mark: 1 rear}\n  - {at: here, with: {M2: far, M3: far}, mark: 1 left 2 front}\n',
  'adjust: M3\nturn: {A: in 1/8}\n',
);
/** Turns that are also given at the rim. */
const TURNS = after(CENTRED.M1, 'marks: M2\nshots: {near: 1.5 right 2.0 down, far: 6.0 right 5.5 down}\n');
const EXAMPLES: Readonly<Record<string, string>> = {
  ...Object.fromEntries(
    ['1-full-service', '2-new-tube', '3-unknown-mount', '4-inches', '5-missed', '6-through-the-year'].map((name) => [
      name,
      read(name),
    ]),
  ),
  'read-one-way': ONE_WAY,
  'screws-with-a-rim': TURNS,
};

type FigureOf<K extends Figure['kind']> = Extract<Figure, { readonly kind: K }>;

/** Every figure of a workbook, by kind, and the table that has the same numbers. */
const DRAWN: {
  readonly [K in Figure['kind']]: {
    of(book: Book, stations: readonly string[]): readonly FigureOf<K>[];
    readonly table: FunctionComponent<{ readonly figure: FigureOf<K> }> | undefined;
  };
} = {
  target: { of: (book, stations) => stations.map((one) => targetFigure(book, one)!), table: TargetTable },
  rounds: { of: (book, stations) => stations.map((one) => roundsFigure(book, one)!), table: RoundsTable },
  // Its numbers are the record's own tables.
  visits: { of: (book, stations) => stations.map((one) => visitsFigure(book, one)!), table: undefined },
  screws: { of: (book) => panelView(book, {})?.mounts ?? [], table: ScrewsTable },
  path: { of: (book) => [pathFigure(book)!], table: PathTable },
  // It is read by eye: in numbers it would be read already.
  burn: { of: (book) => burnsAtEnd(book).flatMap((fired) => burnFigureOf(book, fired) ?? []), table: undefined },
};

interface Shown {
  readonly figure: Figure;
  readonly table: string;
}

function shown<K extends Figure['kind']>(kind: K, book: Book, stations: readonly string[]): Shown[] {
  const { of, table } = DRAWN[kind];
  return of(book, stations).map((figure) => ({ figure, table: table ? renderToString(h(table, { figure })) : '' }));
}

/** Their state at the end, and halfway, when most work remains. */
function figuresOf(name: string): Shown[] {
  const whole = EXAMPLES[name]!;
  const cells = whole.split(/^---$/m);
  return [whole, cells.slice(0, Math.ceil(cells.length / 2)).join('---')].flatMap((text) => {
    const book = bookOf(text, BORROWED);
    const stations = book.evaluation().stations.map((station) => station.name);
    return (Object.keys(DRAWN) as Figure['kind'][]).flatMap((kind) => shown(kind, book, stations));
  });
}

function pageOf(figures: readonly Shown[], theme: ThemeName): string {
  const { paper: background, ink } = THEMES[theme];
  const sections = widthsIn(theme).map((width) => {
    const svgs = figures.map(({ figure }) => toSvg(figure, { width, theme }));
    return `<section class="w${width}">${svgs.join('')}</section>`;
  });
  const tables = figures.map(({ table }) => table);
  return `<!doctype html><html lang="en"><meta charset="utf-8"><title>Figures</title><style>body{background:${background};color:${ink};font:12px "DejaVu Sans",sans-serif}section{display:flex;flex-wrap:wrap;gap:12px;align-items:flex-start}svg{outline:1px solid #8886}table{border-collapse:collapse}td,th{padding:2px 6px;text-align:left}</style><main><h1>Figures</h1>${sections.join('')}${tables.join('')}</main></html>`;
}

let browser: Browser;
beforeAll(async () => {
  mkdirSync(OUT, { recursive: true });
  browser = await chromium.launch({ executablePath: installBrowser(), args: ['--no-sandbox'] });
}, 300_000);
afterAll(() => browser.close());

let looked = 0;
describe.each(Object.keys(EXAMPLES))('%s', (name) => {
  let figures: readonly Shown[];
  beforeAll(() => {
    figures = figuresOf(name);
  });
  test.each(Object.keys(THEMES) as ThemeName[])('%s', { timeout: 120_000 }, async (theme) => {
    const page = await browser.newPage({ viewport: { width: 1600, height: 900 } });
    const html = pageOf(figures, theme);
    writeFileSync(join(OUT, `${name}-${theme}.html`), html);
    await page.setContent(html);
    await page.screenshot({ path: join(OUT, `${name}-${theme}.png`), fullPage: true });
    looked += await page.locator('svg').count();
    expect(await collisions(page)).toEqual([]);
    // What is not to be checked only costs time. It finds no colour in a picture.
    const unchecked = theme === 'light' ? WIDTHS.slice(1).map((width) => `.w${width}`) : ['svg'];
    await page.evaluate((some) => {
      for (const one of some) for (const element of document.querySelectorAll(one)) element.remove();
    }, unchecked);
    await page.evaluate(axe.source);
    const { violations } = await page.evaluate(() => (globalThis as unknown as { axe: typeof axe }).axe.run());
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html ?? ''}`)).toEqual([]);
    await page.close();
  });
});

test('all figures were checked', () => {
  console.log(`${looked} figures looked at`);
  expect(looked).toBeGreaterThan(Object.keys(EXAMPLES).length * (WIDTHS.length + 2) * 10);
});

/**
 * Written words that lie on others by more than a pixel, or leave their picture. Letters in signs may lie on one
 * another: so do the marks.
 */
function collisions(page: Page): Promise<string[]> {
  return page.evaluate(() =>
    [...document.querySelectorAll('svg.figure')].flatMap((svg) => {
      const background = svg.getBoundingClientRect();
      const words = [...svg.querySelectorAll('text:not(.letter)')].map((text) => ({
        text: text.textContent,
        box: text.getBoundingClientRect(),
      }));
      const title = svg.getAttribute('aria-label') ?? '';
      const out = words.filter(
        ({ box }) =>
          box.left < background.left - 1 ||
          box.right > background.right + 1 ||
          box.top < background.top - 1 ||
          box.bottom > background.bottom + 1,
      );
      const on = words.flatMap((one, k) =>
        words
          .slice(0, k)
          .filter(({ box }) => {
            const across = Math.min(one.box.right, box.right) - Math.max(one.box.left, box.left);
            const upward = Math.min(one.box.bottom, box.bottom) - Math.max(one.box.top, box.top);
            return across > 1 && upward > 3;
          })
          .map((other) => `${other.text} / ${one.text}`),
      );
      return [
        ...out.map(({ text }) => `${title} (${background.width}): leaves the picture: ${text}`),
        ...on.map((what) => `${title} (${background.width}): ${what}`),
      ];
    }),
  );
}
