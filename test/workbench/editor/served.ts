/** The workbench of the browser: VS Code's own server, with the packed extension installed, until the suite is over. */
import { spawn, type ChildProcess } from 'node:child_process';
import { openSync } from 'node:fs';
import { join } from 'node:path';
import type { TestProject } from 'vitest/node';
import { makeHome, node, pack, type Home } from './home.ts';
import { installBrowser, installServer } from './install.ts';
import { OUTPUT } from './output.ts';

export default function serveInstalled(project: TestProject): Promise<() => Promise<void>> {
  return serve(project, (main, home) => node(main, '--install-extension', pack(), ...home.folders));
}

/** `prepare` runs before the server: its argument is the script that serves. */
export async function serve(
  project: TestProject,
  prepare: (main: string, home: Home) => void,
): Promise<() => Promise<void>> {
  const browser = installBrowser();
  const main = installServer();
  const home = makeHome();
  prepare(main, home);
  const { server, port } = await start(main, home.folders);
  project.provide('workbench', { kind: 'served', port, browser });
  return async () => {
    await stop(server);
    home.remove();
  };
}

/** It picks a free port and prints it. Its output is stored beside the pictures. */
async function start(main: string, folders: readonly string[]): Promise<{ server: ChildProcess; port: number }> {
  const words = [
    '--host',
    '127.0.0.1',
    '--port',
    '0',
    '--without-connection-token',
    '--accept-server-license-terms',
    '--telemetry-level',
    'off',
    ...folders,
  ];
  const log = openSync(join(OUTPUT, 'server.log'), 'w');
  const server = spawn(process.execPath, [main, ...words], {
    stdio: ['ignore', 'pipe', log],
    detached: true,
    env: { ...process.env, EXTENSIONS_GALLERY: '{}' },
  });
  const port = await new Promise<number>((resolve, reject) => {
    server.stdout!.on('data', (chunk: Buffer) => {
      const said = /Web UI available at http:\/\/[^:]+:(\d+)/.exec(chunk.toString());
      if (said) resolve(Number(said[1]));
    });
    server.on('exit', (code) =>
      reject(new Error(`The workbench's server ended with ${code}; see ${OUTPUT}/server.log`)),
    );
  });
  return { server, port };
}

/** With the extension hosts that it started: they are of its process group. */
async function stop(server: ChildProcess): Promise<void> {
  const gone = new Promise((resolve) => server.once('exit', resolve));
  process.kill(-server.pid!, 'SIGTERM');
  await gone;
}
