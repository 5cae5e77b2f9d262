/** The extension in the editor's browser: there the server is a worker. */
import { Uri, type ExtensionContext } from 'vscode';
import { LanguageClient } from 'vscode-languageclient/browser';
import { begin } from './begin.ts';

export function activate(context: ExtensionContext): void {
  const script = Uri.joinPath(context.extensionUri, 'dist', 'server-worker.js').toString(true);
  begin(context, (id, name, options) => new LanguageClient(id, name, options, new Worker(script)));
}
