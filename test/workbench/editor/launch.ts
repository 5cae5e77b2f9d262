/** A window of the workbench, in a browser or on the desktop: the suite is the same. */
import { _electron, chromium, type Page } from 'playwright-core';
import { inject } from 'vitest';

declare module 'vitest' {
  interface ProvidedContext {
    readonly workbench: Provided;
  }
}

export type Provided = Served | Desktop;

interface Served {
  readonly kind: 'served';
  readonly port: number;
  readonly browser: string;
}

interface Desktop {
  readonly kind: 'desktop';
  readonly executable: string;
  readonly folders: readonly string[];
  readonly display: string;
}

export interface Window {
  readonly page: Page;
  close(): Promise<void>;
}

export async function launch(folder: string): Promise<Window> {
  const provided = inject('workbench');
  const window = provided.kind === 'served' ? await inBrowser(provided, folder) : await onDesktop(provided, folder);
  window.page.setDefaultTimeout(20_000);
  return window;
}

const QUIET = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

async function inBrowser({ port, browser: executablePath }: Served, folder: string): Promise<Window> {
  const browser = await chromium.launch({ executablePath, args: QUIET });
  const page = await browser.newPage({ viewport: { width: 1400, height: 900 } });
  await page.goto(`http://127.0.0.1:${port}/?folder=${encodeURIComponent(folder)}`);
  return { page, close: () => closeIn(page).then(() => browser.close()) };
}

/**
 * The server keeps the extension host of a window that merely vanished, for three hours; a page that is left says
 * goodbye.
 */
async function closeIn(page: Page): Promise<void> {
  page.on('dialog', (dialog) => void dialog.accept());
  await page.goto('about:blank');
}

async function onDesktop({ executable: executablePath, folders, display }: Desktop, folder: string): Promise<Window> {
  const env = { ...process.env, DISPLAY: display } as Record<string, string>;
  const editor = await _electron.launch({
    executablePath,
    env,
    args: [
      folder,
      ...folders,
      '--no-sandbox',
      '--disable-updates',
      '--disable-workspace-trust',
      '--skip-welcome',
      '--skip-release-notes',
    ],
  });
  const page = await editor.firstWindow();
  return { page, close: () => editor.close() };
}
