/** The workbench of the desktop: a downloaded VS Code, told by `VSCODE` where it is, with the packed extension installed. */
import { resolveCliArgsFromVSCodeExecutablePath } from '@vscode/test-electron';
import type { TestProject } from 'vitest/node';
import { makeHome, pack, run } from './home.ts';

export default function desktop(project: TestProject): () => void {
  const executable = process.env['VSCODE']!;
  const home = makeHome();
  const [program, ...words] = resolveCliArgsFromVSCodeExecutablePath(executable, { reuseMachineInstall: true });
  run(program!, [...words, '--install-extension', pack(), ...home.folders]);
  project.provide('workbench', { kind: 'desktop', executable, folders: home.folders });
  return home.remove;
}
