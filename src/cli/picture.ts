/** Pictures onto disk. Pixels are made by a browser that is there already: it draws SVG as people will see it. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';

/** What went wrong, in words. */
export type Problem = string | undefined;

export function writeText(file: string, text: string): Problem {
  try {
    writeFileSync(file, text);
    return undefined;
  } catch (problem) {
    return `${file} cannot be written (${problem instanceof Error && 'code' in problem ? String(problem.code) : String(problem)}).`;
  }
}

/** A browser that does not come back is not waited for any longer, ms. */
const PATIENCE = 60_000;

/** @param svg with its size in pixels */
export function writePng(file: string, svg: string): Problem {
  const browser = chromium();
  if (browser === undefined) return `A .png is made by Chromium, and none was found (${NAMES.join(', ')} on the path, or CHROMIUM=/path/to/it). A .svg needs none.`;
  const [, width, height] = /width="([\d.]+)" height="([\d.]+)"/.exec(svg)!;
  const folder = mkdtempSync(join(tmpdir(), 'alignbook-'));
  try {
    const page = join(folder, 'page.html');
    writeFileSync(page, `<!doctype html><meta charset="utf-8"><style>body{margin:0}svg{display:block}</style>${svg}`);
    const size = `${Math.ceil(Number(width))},${Math.ceil(Number(height))}`;
    const { status } = spawnSync(browser, ['--headless', ...ROOT, '--disable-gpu', '--no-first-run', '--hide-scrollbars', '--force-device-scale-factor=2', '--default-background-color=00000000', `--user-data-dir=${join(folder, 'profile')}`, `--window-size=${size}`, `--screenshot=${resolve(file)}`, pathToFileURL(page).href], { timeout: PATIENCE, stdio: 'ignore' });
    return status === 0 && existsSync(file) ? undefined : `${file} could not be made by ${browser}.`;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Chromium refuses its sandbox to root; the page is our own and holds no script. */
const ROOT = process.getuid?.() === 0 ? ['--no-sandbox'] : [];

const NAMES = ['chromium', 'chromium-browser'] as const;

function chromium(): string | undefined {
  const named = process.env['CHROMIUM'];
  if (named !== undefined) return existsSync(named) ? named : undefined;
  const folders = (process.env['PATH'] ?? '').split(delimiter);
  return NAMES.flatMap((name) => folders.map((folder) => join(folder, name))).find((path) => existsSync(path));
}
