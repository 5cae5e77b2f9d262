/** A screen for windows: the one that is there, or on a Linux machine without one a screen that nobody sees. */
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { installDebian } from './install.ts';

export interface Display {
  /** As in `DISPLAY`; empty where screens have no names. */
  readonly name: string;
  stop(): void;
}

const SERVER = '/usr/bin/Xvfb';

const hasScreen = () => (process.env['DISPLAY'] ?? '') !== '' || process.platform !== 'linux';

export function installScreen(): void {
  if (!hasScreen() && !existsSync(SERVER)) installDebian('xvfb');
}

export async function startDisplay(): Promise<Display> {
  if (hasScreen()) return { name: process.env['DISPLAY'] ?? '', stop: () => undefined };
  installScreen();
  // It writes the number that it uses to its third channel.
  const server = spawn(SERVER, ['-displayfd', '3', '-screen', '0', '1400x900x24'], {
    stdio: ['ignore', 'ignore', 'ignore', 'pipe'],
  });
  const number = await new Promise<string>((resolve, reject) => {
    server.stdio[3]!.on('data', (said: Buffer) => resolve(said.toString().trim()));
    server.on('exit', (code) => reject(new Error(`Xvfb ended with ${code}`)));
  });
  return { name: `:${number}`, stop: () => void server.kill() };
}
