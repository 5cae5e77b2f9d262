/** The extension in the desktop editor: the server is a process of its own. */
import type { ExtensionContext } from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { begin } from './begin.ts';

export function activate(context: ExtensionContext): void {
  const module = context.asAbsolutePath('dist/server.cjs');
  begin(
    context,
    (id, name, options) => new LanguageClient(id, name, { module, transport: TransportKind.ipc }, options),
  );
}
