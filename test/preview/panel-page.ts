/**
 * The panel's page as it is bundled, in a browser, with the workbook behind it: what the page asks is answered as the
 * server and the extension answer it. The size and the colours of the editor can be chosen freely.
 */
import { build } from 'esbuild';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { chromium, type Browser, type Page } from 'playwright-core';
import {
  panelView,
  statusOf,
  placeInStep,
  placeMark,
  addStep,
  closingInWords,
  closingSheet,
  expectEdit,
  expressions,
  MARK_IN_STEP,
  threads,
  type Book,
  type Change,
} from '../../src/language/index.ts';
import { ASK_CELL, isFromPanel, type FromPanel, type PanelOptions, type ToPanel } from '../../src/model/index.ts';
import { appendCells } from '../../src/cells/index.ts';
import { ROOT } from '../house/layers.ts';
import { bookOf, changed } from '../support/workbook.ts';
import { installBrowser } from '../workbench/editor/install.ts';
import { EDITOR_THEMES, type EditorTheme } from './themes.ts';

const PICTURES = join(ROOT, 'test', 'output', 'panel');
const URI = 'file:///panel.alignbook.yaml';

export interface Shown {
  readonly width: number;
  readonly height: number;
  readonly theme?: EditorTheme;
  /** Letters that are wider by this factor. */
  readonly wider?: number;
  readonly reducedMotion?: boolean;
}

let browser: Browser | undefined;
let script: string | undefined;

export async function startBrowser(): Promise<void> {
  mkdirSync(PICTURES, { recursive: true });
  const { outputFiles } = await build({
    absWorkingDir: ROOT,
    entryPoints: ['src/preview/panel/main.tsx'],
    bundle: true,
    write: false,
    platform: 'browser',
    format: 'iife',
    target: 'es2022',
    jsx: 'automatic',
    jsxImportSource: 'preact',
  });
  script = outputFiles[0]!.text;
  browser = await chromium.launch({ executablePath: installBrowser(), args: ['--no-sandbox'] });
}

export async function stopBrowser(): Promise<void> {
  await browser?.close();
}

export class PanelPage {
  readonly page: Page;
  text: string;
  readonly messages: FromPanel[] = [];
  #options: PanelOptions = {};

  private constructor(page: Page, text: string) {
    this.page = page;
    this.text = text;
  }

  static async open(text: string, shown: Shown): Promise<PanelPage> {
    const { width, height, theme = 'dark', reducedMotion = false } = shown;
    const page = await browser!.newPage({
      viewport: { width, height },
      reducedMotion: reducedMotion ? 'reduce' : 'no-preference',
    });
    page.setDefaultTimeout(5000);
    const panel = new PanelPage(page, text);
    await page.exposeFunction('receivePanel', (message: unknown) => panel.#receive(message));
    await page.setContent(htmlIn(theme, shown.wider ?? 1));
    await page.addScriptTag({
      content: `const acquireVsCodeApi = () => ({ postMessage: (m) => window.receivePanel(m), getState: () => window.kept, setState: (s) => { window.kept = s; } });\n${script}`,
    });
    await page.locator('.work').waitFor();
    return panel;
  }

  /** As if somebody had typed into the workbook. */
  async type(text: string): Promise<void> {
    this.text = text;
    await this.#send();
  }

  async picture(name: string): Promise<void> {
    await this.page.screenshot({ path: join(PICTURES, `${name}.png`), animations: 'disabled' });
  }

  async #receive(message: unknown): Promise<void> {
    if (!isFromPanel(message)) throw new Error(`No message of the panel: ${JSON.stringify(message)}`);
    this.messages.push(message);
    const book = () => this.#book();
    switch (message.type) {
      case 'ask': {
        const { type: _, of: __, ...options } = message;
        this.#options = { ...options, fired: this.#options.fired };
        return this.#send();
      }
      case 'select':
        return this.#post({ type: 'selected', mark: { cell: message.cell, path: message.path } });
      case 'place': {
        const { right, up, fine = false, none } = message;
        const place = message.cell === MARK_IN_STEP ? placeInStep : placeMark;
        return this.#change(place(book(), message, none ? 'none' : { right, up, fine }));
      }
      case 'addStep': {
        const way = message.way === undefined ? undefined : statusOf(book()).ways?.[message.way];
        return way ? this.type(appendCells(this.text, way.cells)) : this.#change([addStep(book())!.change]);
      }
      case 'addChecks': {
        const { head, lines } = panelView(book(), {})!.now.checks!;
        return this.type(
          appendCells(this.text, [`${head}${lines.filter((_, k) => message.done.includes(k)).join('')}`]),
        );
      }
      case 'addTried': {
        const cell = panelView(book(), this.#options)!.triedCell!;
        this.#options = { ...this.#options, turns: undefined };
        return this.type(appendCells(this.text, [cell]));
      }
      case 'fire': {
        const { cell, path, expected } = message;
        if (expected !== '') this.text = changed(this.text, expectEdit(book(), { cell, path }, expected)!);
        this.#options = { ...this.#options, station: undefined, fired: { cell, path } };
        return this.#send();
      }
      case 'shoot':
        return this.type(appendCells(this.text, [panelView(book(), this.#options)!.practice!.shoot!.cell]));
      case 'askAdvice':
        return this.type(appendCells(this.text, [ASK_CELL]));
      case 'closing':
        return this.#post({
          type: 'closing',
          closing: closingInWords(closingSheet(book(), { threads, expressions })!),
        });
      case 'practise':
        return undefined;
    }
  }

  /** As the server has it: the advice for a practice machine is closed. */
  #book(): Book {
    const book = bookOf(this.text);
    book.closesAdvice = true;
    return book;
  }

  async #change(changes: readonly Change[] | undefined): Promise<void> {
    if (changes) this.text = changed(this.text, changes);
    await this.#send();
  }

  async #send(): Promise<void> {
    await this.#post({
      type: 'sheet',
      uri: URI,
      file: 'panel.alignbook.yaml',
      sheet: panelView(this.#book(), this.#options) ?? null,
    });
  }

  async #post(message: ToPanel): Promise<void> {
    await this.page.evaluate((data) => window.postMessage(JSON.parse(data), '*'), JSON.stringify(message));
  }
}

function htmlIn(theme: EditorTheme, wider: number): string {
  const { class: name, ...colours } = EDITOR_THEMES[theme];
  const variables = Object.entries(colours).map(([key, value]) => `--vscode-${key}:${value}`);
  return `<!doctype html><html lang="en" style="${variables.join(';')};--vscode-font-family:system-ui,'DejaVu Sans',sans-serif;--vscode-font-size:13px"><head><meta charset="utf-8"><title>Targets</title>${wider === 1 ? '' : `<style>#sheet *{letter-spacing:${(wider - 1) * 0.5}em}</style>`}</head><body class="${name}"><main id="sheet" class="colours"></main></body></html>`;
}
