/** The workbench as a person uses it: what is seen and what is typed. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { expect } from 'vitest';
import { ROOT } from '../../house/layers.ts';
import { launch } from './launch.ts';
import { OUTPUT } from './output.ts';
import { THEMES, type Theme } from './settings.ts';

/** What a person reads: the editor shows spaces as such that do not break, and puts marks without width between. */
export async function textOf(shown: Locator): Promise<string> {
  return (await shown.textContent())!.replace(/[\u200b-\u200f\u2060]/g, '').replace(/\s/g, ' ');
}

/** Texts by the names of their files. */
export type Files = Readonly<Record<string, string>>;

export class Workbench {
  readonly page: Page;
  readonly folder: string;
  readonly #close: () => Promise<void>;

  private constructor(page: Page, folder: string, close: () => Promise<void>) {
    this.page = page;
    this.folder = folder;
    this.#close = close;
  }

  /** A window on a folder of its own, with these files in it. */
  static async open(files: Files): Promise<Workbench> {
    const folder = mkdtempSync(join(tmpdir(), 'books-'));
    for (const [file, text] of Object.entries(files)) writeFileSync(join(folder, file), text);
    const { page, close } = await launch(folder);
    await page.locator('.monaco-workbench .part.statusbar').waitFor({ timeout: 60_000 });
    return new Workbench(page, folder, close);
  }

  async close(): Promise<void> {
    await this.#close();
    rmSync(this.folder, { recursive: true, force: true });
  }

  /** From the command palette, by the title that stands there; opened again where it is not known yet. */
  async command(title: string): Promise<void> {
    const row = this.page.locator('.quick-input-list .monaco-list-row').filter({ hasText: title }).first();
    const offered = async () => {
      await this.page.keyboard.press('Escape');
      await this.page.keyboard.press('F1');
      await this.page.locator('.quick-input-widget input').fill(`>${title}`);
      return row.waitFor({ timeout: 1000 }).then(
        () => true,
        () => false,
      );
    };
    await expect.poll(offered, { timeout: 20_000 }).toBe(true);
    await row.click();
  }

  /** Types into the input box with this prompt, and accepts. */
  async answer(asked: string, text: string): Promise<void> {
    await this.#asked(asked);
    await this.page.locator('.quick-input-widget input').fill(text);
    await this.page.keyboard.press('Enter');
  }

  /** Chooses from the list with this prompt. */
  async pick(asked: string, choice: string): Promise<void> {
    await this.#asked(asked);
    await this.page.locator('.quick-input-list .monaco-list-row').filter({ hasText: choice }).first().click();
  }

  async back(asked: string): Promise<void> {
    await this.#asked(asked);
    await this.page.locator('.quick-input-widget .codicon-quick-input-back').click();
  }

  /** The prompt of a list stands in its empty box, that of an input box below it, or either in a title. */
  async #asked(words: string): Promise<void> {
    const widget = this.page.locator('.quick-input-widget');
    const placeholder = widget.locator(`input[placeholder^="${words}"]`);
    await placeholder
      .or(widget.locator('.quick-input-message, .quick-input-title').filter({ hasText: words }))
      .first()
      .waitFor();
  }

  /** A file of the folder, in an editor that has the focus. */
  async show(file: string): Promise<void> {
    await this.page.locator('.explorer-folders-view .monaco-list-row').filter({ hasText: file }).dblclick();
    await this.tab(file).last().waitFor();
    await this.editor.locator('.view-line').first().waitFor();
  }

  tab(file: string): Locator {
    return this.page.locator('.tabs-container .tab').filter({ hasText: file });
  }

  get editor(): Locator {
    return this.page.locator('.editor-instance .monaco-editor').first();
  }

  /** Lines as they are shown. */
  line(text: string | RegExp): Locator {
    return this.editor.locator('.view-line').filter({ hasText: text });
  }

  /** The hover of the text under the mouse; the editor ignores a mouse that arrives while it is drawing. */
  async hover(text: Locator): Promise<Locator> {
    const said = this.page.locator('.monaco-hover').filter({ visible: true }).first();
    const shown = async () => {
      await this.page.mouse.move(700, 20);
      await text.hover();
      return said.waitFor({ timeout: 2000 }).then(
        () => true,
        () => false,
      );
    };
    await expect.poll(shown, { timeout: 20_000 }).toBe(true);
    return said;
  }

  /** Without suggestions Escape would leave the fields of a snippet, so it is pressed only if they are shown. */
  async closeSuggestions(): Promise<void> {
    await this.page.waitForTimeout(600);
    if (await this.page.locator('.suggest-widget.visible').count()) await this.page.keyboard.press('Escape');
  }

  /** Applies the quick fix of this title at the cursor; tries again while the editor does not offer it yet. */
  async quickFix(title: string): Promise<void> {
    const row = this.page.locator('.action-widget .monaco-list-row.focused').filter({ hasText: title });
    const offered = async () => {
      await this.page.keyboard.press('Escape');
      await this.page.keyboard.press('Control+.');
      return row.waitFor({ timeout: 2000 }).then(
        () => true,
        () => false,
      );
    };
    await expect.poll(offered, { timeout: 20_000 }).toBe(true);
    await this.page.keyboard.press('Enter');
  }

  statusItem(text: string | RegExp): Locator {
    return this.page.locator('.statusbar-item').filter({ hasText: text });
  }

  /** 1-based. */
  async goTo(line: number, column = 1): Promise<void> {
    await this.page.keyboard.press('Control+G');
    await this.page.locator('.quick-input-widget input').fill(`:${line}:${column}`);
    await this.page.keyboard.press('Enter');
  }

  /** Key by key, with whatever the editor does of itself; suggestions are put away before a line ends. */
  async type(...texts: string[]): Promise<void> {
    for (const character of texts.join('')) {
      if (character === '\n') await this.page.keyboard.press('Escape');
      await this.page.keyboard.press(character === '\n' ? 'Enter' : character === ' ' ? 'Space' : character);
      // No quicker than a quick hand: the editor colours what was typed before it knows how to go on.
      await this.page.waitForTimeout(30);
    }
  }

  /** What is on the disk after Save. */
  async saved(file: string): Promise<string> {
    await this.page.keyboard.press('Control+S');
    await expect.poll(() => this.page.locator('.tab.dirty').filter({ hasText: file }).count()).toBe(0);
    return readFileSync(join(this.folder, file), 'utf8');
  }

  /** The folder's settings: a theme, and what differs from what the extension brings. */
  async settings(theme: Theme, extra: Readonly<Record<string, unknown>> = {}): Promise<void> {
    mkdirSync(join(this.folder, '.vscode'), { recursive: true });
    writeFileSync(
      join(this.folder, '.vscode', 'settings.json'),
      JSON.stringify({ 'workbench.colorTheme': THEMES[theme], ...extra }),
    );
    await this.page
      .locator(`.monaco-workbench.${{ light: 'vs', dark: 'vs-dark', contrast: 'hc-black' }[theme]}`)
      .waitFor();
  }

  async picture(name: string): Promise<void> {
    await this.page.screenshot({ path: join(OUTPUT, `${name}.png`) });
  }

  /**
   * A part of the window, as README.md shows it: with `UPDATE=1` there, otherwise with the other pictures. Its size in
   * bytes.
   */
  async publish(name: string, part: Locator): Promise<number> {
    const folder = process.env['UPDATE'] === undefined ? OUTPUT : join(ROOT, 'shared', 'pictures');
    const path = join(folder, `${name}.png`);
    // The caret blinks, and the mouse leaves what it rests on with a frame.
    await this.page.mouse.move(0, 0);
    await part.screenshot({ path, animations: 'disabled' });
    return statSync(path).size;
  }
}
