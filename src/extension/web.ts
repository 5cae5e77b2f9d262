/** The extension in the browser: the server is a worker and has no disk. */
import { Uri, type ExtensionContext } from 'vscode';
import { LanguageClient } from 'vscode-languageclient/browser';
import { begin } from './begin.ts';
import { provideFiles } from './files.ts';

export function activate(context: ExtensionContext): void {
  const place = (...path: string[]) => Uri.joinPath(context.extensionUri, ...path).toString(true);
  begin(context, (id, name, options) => {
    const client = new LanguageClient(
      id,
      name,
      { ...options, initializationOptions: { page: place('shared', 'findings.md') } },
      new Worker(place('dist', 'server-worker.js')),
    );
    provideFiles(client);
    return client;
  });
}
