/** A window of the workbench: in a browser that is served. */
import { chromium, type Page } from 'playwright-core';
import { inject } from 'vitest';

export interface Window {
  readonly page: Page;
  close(): Promise<void>;
}

const QUIET = ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'];

export async function launch(folder: string): Promise<Window> {
  const { port, browser: executablePath } = inject('served');
  const browser = await chromium.launch({ executablePath, args: QUIET });
  const page = await browser.newPage({ viewport: { width: 1400, height: 900 } });
  await page.goto(`http://127.0.0.1:${port}/?folder=${encodeURIComponent(folder)}`);
  page.setDefaultTimeout(10_000);
  return { page, close: () => browser.close() };
}
