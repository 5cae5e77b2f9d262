/** Sends the client's messages to the log channel with their level, so that the log can be filtered. */
import type { LogOutputChannel } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';

export function logThrough(client: BaseLanguageClient, log: LogOutputChannel): void {
  client.debug = (message, data) => log.debug(withData(message, data));
  client.info = (message, data) => log.info(withData(message, data));
  client.warn = (message, data) => log.warn(withData(message, data));
  client.error = (message, data) => log.error(withData(message, data));
}

function withData(message: string, data: unknown): string {
  if (data instanceof Error) return `${message}\n${data.stack ?? data.message}`;
  return typeof data === 'string' ? `${message}\n${data}` : message;
}
