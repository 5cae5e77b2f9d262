/** The client writes lines of its own into a channel; here they keep their level, so that the log can be filtered. */
import type { LogOutputChannel } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';

export function logThrough(client: BaseLanguageClient, log: LogOutputChannel): void {
  client.debug = (message, data) => log.debug(said(message, data));
  client.info = (message, data) => log.info(said(message, data));
  client.warn = (message, data) => log.warn(said(message, data));
  client.error = (message, data) => log.error(said(message, data));
}

function said(message: string, data: unknown): string {
  if (data instanceof Error) return `${message}\n${data.stack ?? data.message}`;
  return typeof data === 'string' ? `${message}\n${data}` : message;
}
