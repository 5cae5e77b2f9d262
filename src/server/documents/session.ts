/** One client and what it can do. Nothing that goes wrong inside ends a session: it is logged, and that request answered empty. */
import {
  CancellationToken,
  LSPErrorCodes,
  ResponseError,
  type ClientCapabilities,
  type Connection,
  type InitializeParams,
} from 'vscode-languageserver';
import type { Desk } from './desk.ts';
import type { Host } from '../hosts/host.ts';
import { settingsFrom, type Settings } from './settings.ts';

export interface Session {
  readonly connection: Connection;
  readonly host: Host;
  readonly desk: Desk;
  readonly client: ClientCapabilities;
  /** Addresses of the folders that are open. */
  readonly folders: Set<string>;
  settings: Settings;
}

/** What a client may say at the start. */
export interface Options {
  /** As under `alignbook` in its configuration. */
  readonly settings?: unknown;
  /** Address of the page about findings. */
  readonly page?: string;
}

export function createSession(
  connection: Connection,
  host: Host,
  desk: Desk,
  { capabilities, workspaceFolders, rootUri, initializationOptions }: InitializeParams,
): Session {
  const options = (initializationOptions ?? {}) as Options;
  const folders = new Set(workspaceFolders?.map(({ uri }) => uri) ?? (rootUri ? [rootUri] : []));
  return { connection, host, desk, client: capabilities, folders, settings: settingsFrom(options.settings) };
}

/** A handler that never fails; a cancelled request is answered as such. */
export function guarded<P, R>(
  { connection }: Session,
  name: string,
  empty: R,
  work: (params: P, token: CancellationToken) => Promise<R> | R,
) {
  return async (params: P, token: CancellationToken = CancellationToken.None): Promise<R> => {
    try {
      const answer = await work(params, token);
      if (!token.isCancellationRequested) return answer;
    } catch (problem) {
      connection.console.error(
        `${name}: ${problem instanceof Error ? (problem.stack ?? problem.message) : String(problem)}`,
      );
      return empty;
    }
    throw new ResponseError(LSPErrorCodes.RequestCancelled, 'cancelled');
  };
}
