/**
 * Puts the real workbench on this machine: VS Code's own server out of the `code-server` package, and a browser to show
 * it. Neither belongs to what ships, so both are fetched when they are first needed.
 */
import { spawnSync } from 'node:child_process';
import { copyFileSync, existsSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { delimiter, join } from 'node:path';

const HERE = join(import.meta.dirname, '..');
const SERVER = join(HERE, 'node_modules', 'code-server', 'lib', 'vscode');
/** Written last, with the lock file it was made from, so that a half-made installation is made again. */
const DONE = join(HERE, 'node_modules', '.complete');
const BROWSERS = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
];

/** The script that Node runs to serve the workbench. */
export function installServer(): string {
  const lock = readFileSync(join(HERE, 'package-lock.json'), 'utf8');
  if (!existsSync(DONE) || readFileSync(DONE, 'utf8') !== lock) {
    run('npm', ['ci', '--ignore-scripts'], HERE);
    // What its own install script does, but for native parts: passwords and terminals are not tried, logs need a
    // stand-in.
    for (const folder of [SERVER, join(SERVER, 'extensions')])
      run('npm', ['install', '--omit=dev', '--ignore-scripts'], folder);
    rmSync(join(SERVER, 'node_modules.asar'), { force: true });
    symlinkSync('node_modules', join(SERVER, 'node_modules.asar'));
    copyFileSync(join(HERE, 'editor', 'spdlog.cjs'), join(SERVER, 'node_modules', '@vscode', 'spdlog', 'index.js'));
    writeFileSync(DONE, lock);
  }
  return join(SERVER, 'out', 'server-main.js');
}

export function installBrowser(): string {
  if (!BROWSERS.some(existsSync)) installDebian('chromium', 'fonts-dejavu-core');
  const result = BROWSERS.find(existsSync);
  if (result === undefined) throw new Error('No Chromium here, and it could not be installed: see above.');
  return result;
}

/** Neovim, on the path. */
export function installNeovim(): void {
  const isThere = (process.env['PATH'] ?? '').split(delimiter).some((place) => existsSync(join(place, 'nvim')));
  if (!isThere) installDebian('neovim');
}

/** Debian's packages, where we may install them. */
export function installDebian(...packages: string[]): void {
  run('apt-get', ['update', '-qq'], HERE);
  run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', ...packages], HERE);
}

function run(program: string, words: readonly string[], cwd: string): void {
  const { status, error, stdout, stderr } = spawnSync(program, words, {
    cwd,
    encoding: 'utf8',
    env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive', npm_config_audit: 'false', npm_config_fund: 'false' },
  });
  if (status !== 0)
    throw new Error(`${program} ${words.join(' ')}: ${error?.message ?? `exit ${status}`}\n${stdout}${stderr}`);
}
