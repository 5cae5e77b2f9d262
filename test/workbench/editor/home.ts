/** What the editor keeps for its user, made anew for every run, and the extension packed for it. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ROOT } from '../../house/layers.ts';
import { settings } from './settings.ts';

export interface Home {
  /** As the editor's command line takes them. */
  readonly folders: readonly string[];
  remove(): void;
}

export function makeHome(): Home {
  const home = mkdtempSync(join(tmpdir(), 'workbench-'));
  const user = join(home, 'user');
  mkdirSync(join(user, 'User'), { recursive: true });
  writeFileSync(join(user, 'User', 'settings.json'), settings('dark'));
  return {
    folders: ['--user-data-dir', user, '--extensions-dir', join(home, 'extensions')],
    remove: () => rmSync(home, { recursive: true, force: true, maxRetries: 5 }),
  };
}

/** The packed extension's path. */
export function pack(): string {
  node(join(ROOT, '.ci', 'package.mjs'));
  return join(ROOT, 'dist', 'alignbook.vsix');
}

export function node(...words: string[]): void {
  run(process.execPath, words);
}

export function run(program: string, words: readonly string[]): void {
  const { status, error, stdout, stderr } = spawnSync(program, words, { cwd: ROOT, encoding: 'utf8' });
  if (status !== 0)
    throw new Error(`${program} ${words.join(' ')}: ${error?.message ?? `exit ${status}`}\n${stdout}${stderr}`);
}
