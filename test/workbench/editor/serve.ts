/** Before the suite: packs the extension, installs it as a person would, and serves the workbench until the suite is over. */
import { spawn, spawnSync, type ChildProcess } from 'node:child_process';
import { mkdirSync, mkdtempSync, openSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { TestProject } from 'vitest/node';
import { ROOT } from '../../house/layers.ts';
import { installBrowser, installServer } from './install.ts';
import { OUTPUT } from './output.ts';
import { settings } from './settings.ts';

declare module 'vitest' {
  interface ProvidedContext {
    readonly served: Served;
  }
}

export interface Served {
  readonly port: number;
  readonly browser: string;
  /** Where the editor keeps what belongs to its user. */
  readonly user: string;
}

export default async function serve(project: TestProject): Promise<() => Promise<void>> {
  const browser = installBrowser();
  const main = installServer();
  const home = mkdtempSync(join(tmpdir(), 'workbench-'));
  const [user, extensions] = [join(home, 'user'), join(home, 'extensions')];
  mkdirSync(join(user, 'User'), { recursive: true });
  writeFileSync(join(user, 'User', 'settings.json'), settings('dark'));
  const folders = ['--user-data-dir', user, '--extensions-dir', extensions];
  node(join(ROOT, '.ci', 'package.mjs'));
  node(main, '--install-extension', join(ROOT, 'dist', 'alignbook.vsix'), ...folders);
  const { server, port } = await start(main, folders);
  project.provide('served', { port, browser, user });
  return async () => {
    await stop(server);
    rmSync(home, { recursive: true, force: true, maxRetries: 5 });
  };
}

function node(...words: string[]): void {
  const { status, stdout, stderr } = spawnSync(process.execPath, words, { cwd: ROOT, encoding: 'utf8' });
  if (status !== 0) throw new Error(`node ${words.join(' ')}: exit ${status}\n${stdout}${stderr}`);
}

/** It picks a free port and says which. What it writes is kept beside the pictures. */
async function start(main: string, folders: readonly string[]): Promise<{ server: ChildProcess; port: number }> {
  const words = ['--host', '127.0.0.1', '--port', '0', '--without-connection-token', '--accept-server-license-terms', '--telemetry-level', 'off', ...folders];
  const log = openSync(join(OUTPUT, 'server.log'), 'w');
  const server = spawn(process.execPath, [main, ...words], { stdio: ['ignore', 'pipe', log], detached: true });
  const port = await new Promise<number>((resolve, reject) => {
    server.stdout!.on('data', (chunk: Buffer) => {
      const said = /Web UI available at http:\/\/[^:]+:(\d+)/.exec(chunk.toString());
      if (said) resolve(Number(said[1]));
    });
    server.on('exit', (code) => reject(new Error(`The workbench's server ended with ${code}; see ${OUTPUT}/server.log`)));
  });
  return { server, port };
}

/** With the extension hosts that it started: they are of its process group. */
async function stop(server: ChildProcess): Promise<void> {
  const gone = new Promise((resolve) => server.once('exit', resolve));
  process.kill(-server.pid!, 'SIGTERM');
  await gone;
}
