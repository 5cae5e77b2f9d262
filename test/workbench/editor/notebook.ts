/** A workbook as a notebook, used as a person does: what is seen of its cells and below them, and what is typed there. */
import type { FrameLocator, Locator } from 'playwright-core';
import { expect } from 'vitest';
import type { Workbench } from './workbench.ts';

export interface NotebookHands {
  /** The cells in view. */
  cells(): Locator;
  /** The page with what stands below the cells. */
  output(): FrameLocator;
  /** Opens a file as a notebook. */
  open(file: string): Promise<void>;
  showAsNotebook(): Promise<void>;
  close(): Promise<void>;
  /** Types at the end of the last line that begins so. */
  type(line: string, text: string): Promise<void>;
  toThe(end: 'Home' | 'End'): Promise<void>;
  /** Applies the quick fix of this title at the end of a line; tried again while it is not offered yet. */
  quickFix(line: string, title: string): Promise<void>;
  /** A line of the cell that has the cursor. */
  focused(): Locator;
}

export function useNotebook(workbench: () => Workbench): NotebookHands {
  const page = () => workbench().page;
  const cells = () => page().locator('.notebook-editor:visible .cell-list-container .monaco-list-row');
  const output = () =>
    page().frameLocator('iframe.webview.ready[src*="purpose=notebookRenderer"]').frameLocator('#active-frame');

  /** Done when the text's tab is gone. */
  async function showAsNotebook(): Promise<void> {
    await workbench().command('Alignbook: Show as Notebook');
    await page().locator('.notebook-editor:visible .cell.code:visible').first().waitFor();
    await expect.poll(() => page().locator('.tabs-container .tab').count()).toBe(1);
  }

  async function toThe(end: 'Home' | 'End'): Promise<void> {
    await page()
      .locator('.notebook-editor:visible .cell-list-container')
      .click({ position: { x: 4, y: 4 } });
    await page().keyboard.press('Escape');
    await page().keyboard.press(`Control+${end}`);
    await page().waitForTimeout(400);
  }

  return {
    cells,
    output,
    showAsNotebook,
    toThe,
    focused: () => page().locator('.notebook-editor:visible .monaco-editor.focused .view-line'),

    async open(file) {
      await workbench().show(file);
      await showAsNotebook();
    },

    async quickFix(line, title) {
      const row = page().locator('.action-widget .monaco-list-row').filter({ hasText: title }).first();
      const offered = async () => {
        // Escape would leave the cell.
        await cells().locator('.view-line').filter({ hasText: line }).last().click();
        await page().keyboard.press('End');
        await page().keyboard.press('Control+.');
        return row.waitFor({ timeout: 2000 }).then(
          () => true,
          () => false,
        );
      };
      await expect.poll(offered, { timeout: 20_000 }).toBe(true);
      await page().keyboard.press('Enter');
    },

    /** A frame that is closed while it is being loaded holds up the next. */
    async close() {
      await output().locator('body').waitFor({ state: 'attached' });
      await workbench().command('View: Revert and Close Editor');
    },

    /** Cells out of sight are not there for the mouse. */
    async type(line, text) {
      const result = cells()
        .locator('.view-line')
        .filter({ hasText: new RegExp(line.replace(/[{}]/g, '\\$&').replace(/ /g, '.')) })
        .last();
      for (let tries = 0; tries < 20; tries++) {
        const box = (await result.count()) > 0 ? await result.boundingBox() : null;
        if (!box) await toThe(tries % 2 === 0 ? 'Home' : 'End');
        // Below the toolbar, above the status bar.
        else if (box.y > 150 && box.y < 820) break;
        else {
          await page().mouse.move(420, 500);
          await page().mouse.wheel(0, box.y - 450);
          await page().waitForTimeout(200);
        }
      }
      await result.click();
      await page().keyboard.press('End');
      await workbench().type(text);
    },
  };
}
