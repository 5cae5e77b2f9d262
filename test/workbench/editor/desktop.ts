/**
 * The workbench of the desktop: a downloaded VS Code at the path in `VSCODE`, with the packed extension
 * installed.
 */
import { resolveCliArgsFromVSCodeExecutablePath } from '@vscode/test-electron';
import type { TestProject } from 'vitest/node';
import { startDisplay } from './display.ts';
import { makeHome, pack, run } from './home.ts';

export default async function desktop(project: TestProject): Promise<() => void> {
  const executable = process.env['VSCODE']!;
  const home = makeHome();
  const [program, ...words] = resolveCliArgsFromVSCodeExecutablePath(executable, { reuseMachineInstall: true });
  run(program!, [...words, '--no-sandbox', '--install-extension', pack(), ...home.folders]);
  const display = await startDisplay();
  project.provide('workbench', { kind: 'desktop', executable, folders: home.folders, display: display.name });
  return () => {
    display.stop();
    home.remove();
  };
}
