/** PNG and PDF files, made by an installed browser. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { onPath } from './on-path.ts';
import { cannotBeWritten, codeOf, type Made } from './write.ts';

/** Milliseconds after which a browser that does not end is stopped. */
const PATIENCE = 60_000;

/** An output format: the browser's option, how complete bytes begin and end, and an alternative without a browser. */
interface Kind {
  readonly name: string;
  readonly option: string;
  readonly begins: string;
  /** Within the last 16 bytes. */
  readonly ends: string;
  readonly instead: string;
}

const PNG: Kind = {
  name: 'PNG',
  option: '--screenshot',
  begins: '\x89PNG\r\n',
  ends: 'IEND',
  instead: 'A .svg needs no browser.',
};
const PDF: Kind = {
  name: 'PDF',
  option: '--print-to-pdf',
  begins: '%PDF-',
  ends: '%%EOF',
  instead: 'A .html needs no browser and prints the same.',
};

/** @param svg with its size in pixels */
export function pngOf(svg: string, patience = PATIENCE): Made {
  const [, width, height] = /width="([\d.]+)" height="([\d.]+)"/.exec(svg)!;
  const size = `${Math.ceil(Number(width))},${Math.ceil(Number(height))}`;
  const page = `<!doctype html><meta charset="utf-8"><style>body{margin:0}svg{display:block}</style>${svg}`;
  const options = ['--hide-scrollbars', '--force-device-scale-factor=2', '--default-background-color=00000000'];
  return byBrowser(PNG, page, [...options, `--window-size=${size}`], patience);
}

/** @param page a complete page that sets its paper size */
export function pdfOf(page: string, patience = PATIENCE): Made {
  return byBrowser(PDF, page, ['--no-pdf-header-footer'], patience);
}

function byBrowser(kind: Kind, text: string, options: readonly string[], patience: number): Made {
  const browser = chromium();
  if (browser === undefined) {
    const where = `${NAMES.join(', ')} on the path, or CHROMIUM=/path/to/it`;
    return { problem: `A ${kind.name} is made by Chromium, and none was found (${where}). ${kind.instead}` };
  }
  try {
    return inFolder((folder) => runBrowser(browser, kind, { text, options, patience, folder }));
  } catch (problem) {
    return { problem: cannotBeWritten(`What ${browser} needs in ${tmpdir()}`, problem) };
  }
}

/** A new empty folder: whatever the browser leaves there, and however it fails, no other file is touched. */
function inFolder<T>(work: (folder: string) => T): T {
  const folder = mkdtempSync(join(tmpdir(), 'alignbook-'));
  try {
    return work(folder);
  } finally {
    // A browser that was stopped takes a moment to end.
    rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
  }
}

interface Page {
  readonly text: string;
  readonly options: readonly string[];
  readonly patience: number;
  readonly folder: string;
}

function runBrowser(browser: string, kind: Kind, { text, options, patience, folder }: Page): Made {
  const [page, made] = [join(folder, 'page.html'), join(folder, `made.${kind.name.toLowerCase()}`)];
  writeFileSync(page, text);
  const { status, error } = spawnSync(
    browser,
    [
      '--headless',
      ...ROOT,
      '--disable-gpu',
      '--no-first-run',
      `--user-data-dir=${join(folder, 'profile')}`,
      ...options,
      `${kind.option}=${made}`,
      pathToFileURL(page).href,
    ],
    { timeout: patience, killSignal: 'SIGKILL', stdio: 'ignore' },
  );
  const none = `${browser} made no ${kind.name}`;
  if (codeOf(error) === 'ETIMEDOUT') return { problem: `${none} within ${patience / 1000} s.` };
  if (error) return { problem: `${browser} could not be started (${codeOf(error)}).` };
  if (status !== 0)
    return { problem: `${none}: it ended with ${status === null ? 'a signal' : `exit code ${status}`}.` };
  const content = existsSync(made) ? readFileSync(made) : new Uint8Array();
  return isWhole(content, kind)
    ? { content }
    : { problem: `${browser} made no whole ${kind.name}, although it reported success.` };
}

/** A full disk leaves a truncated file. */
function isWhole(content: Uint8Array, { begins, ends }: Kind): boolean {
  const text = (from: number, to?: number) => Buffer.from(content.subarray(from, to)).toString('latin1');
  return text(0, begins.length) === begins && text(-16).includes(ends);
}

/** Chromium does not run its sandbox as root; the page is our own and has no script. */
const ROOT = process.getuid?.() === 0 ? ['--no-sandbox'] : [];

const NAMES = ['chromium', 'chromium-browser'] as const;

function chromium(): string | undefined {
  const named = process.env['CHROMIUM'];
  if (named !== undefined) return existsSync(named) ? named : undefined;
  return onPath(NAMES);
}
