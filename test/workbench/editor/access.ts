/** Whether a page inside the workbench keeps anybody out, by axe-core. */
import { source } from 'axe-core';
import { chromium, type Frame, type Locator } from 'playwright-core';
import { expect } from 'vitest';
import { installBrowser } from './install.ts';

interface Result {
  readonly passes: readonly unknown[];
  readonly violations: readonly {
    readonly id: string;
    readonly nodes: readonly { readonly html: string; readonly failureSummary: string }[];
  }[];
}

/** An empty page is the only one to which fewer rules apply. */
const FEWEST = 10;

/** @param inside something that stands in the page; `part` of it is looked at, or all */
export async function keepsNobodyOut(inside: Locator, part = 'html'): Promise<void> {
  const frame = (await (await inside.first().elementHandle())!.ownerFrame())!;
  // The editor's ground shows through the page; axe-core would take it for white.
  await frame.evaluate(() => (document.documentElement.style.background = 'var(--vscode-editor-background)'));
  await checked(frame, part);
}

/** Where the page runs no scripts, axe-core cannot either: a copy of what is shown is looked at. */
export async function keepsNobodyOutOfCopy(html: Locator): Promise<void> {
  const browser = await chromium.launch({ executablePath: installBrowser(), args: ['--no-sandbox'] });
  const copy = await browser.newPage();
  await copy.setContent(
    `<!doctype html><html lang="${(await html.getAttribute('lang')) ?? ''}" style="${((await html.getAttribute('style')) ?? '').replaceAll('"', '&quot;')}">${await html.innerHTML()}</html>`,
  );
  await checked(copy.mainFrame(), 'html');
  await browser.close();
}

/** In the end: a page takes a moment to follow the theme. */
async function checked(frame: Frame, part: string): Promise<void> {
  await frame.evaluate(source);
  const result = async () => {
    const { passes, violations } = await frame.evaluate<Result>(`axe.run(${JSON.stringify(part)})`);
    return {
      kept: passes.length,
      broken: violations.map(({ id, nodes }) => [
        id,
        ...nodes.map(({ html, failureSummary }) => `${html.slice(0, 200)} ${failureSummary}`),
      ]),
    };
  };
  await expect.poll(async () => (await result()).broken).toEqual([]);
  const { kept } = await result();
  console.log(`${kept} rules of axe-core kept`);
  expect(kept).toBeGreaterThan(FEWEST);
}
