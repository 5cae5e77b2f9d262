/**
 * One client and its capabilities. An error in a handler does not end the session: it is logged, and the request gets
 * an empty answer.
 */
import {
  CancellationToken,
  LSPErrorCodes,
  ResponseError,
  type ClientCapabilities,
  type Connection,
  type InitializeParams,
} from 'vscode-languageserver';
import type { Workspace } from './workspace.ts';
import type { Host } from '../hosts/host.ts';
import { settingsFrom, type Settings } from './settings.ts';

export interface Session {
  readonly connection: Connection;
  readonly host: Host;
  readonly workspace: Workspace;
  readonly client: ClientCapabilities;
  /** URIs of the open folders. */
  readonly folders: Set<string>;
  settings: Settings;
}

/** Initialization options of a client. */
export interface Options {
  /** Settings as under `alignbook` in the client's configuration. */
  readonly settings?: unknown;
  /** URI of the page that documents the findings. */
  readonly page?: string;
}

export function createSession(
  connection: Connection,
  host: Host,
  workspace: Workspace,
  { capabilities, workspaceFolders, rootUri, initializationOptions }: InitializeParams,
): Session {
  const options = (initializationOptions ?? {}) as Options;
  const folders = new Set(workspaceFolders?.map(({ uri }) => uri) ?? (rootUri ? [rootUri] : []));
  return { connection, host, workspace, client: capabilities, folders, settings: settingsFrom(options.settings) };
}

/**
 * Wraps a handler so that it never throws: an error is logged and answered with `empty`, a cancelled request with
 * `RequestCancelled`.
 */
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
