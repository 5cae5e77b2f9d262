/**
 * A web worker has no disk: the editor reads files for it (`alignbook/read`) and finds workbooks (`alignbook/workbooks`).
 * The root is the open folder that holds the file, else the file's own.
 */
import type { Connection } from 'vscode-languageserver';
import { READ_REQUEST, WORKBOOKS_REQUEST } from '../../../shared/messages.ts';
import { expressions, threads, type ReadFile } from '../../language/index.ts';
import { today } from './today.ts';
import type { Host, Start } from './host.ts';

export function workerHost(connection: Connection, start: () => Start): Host {
  const channel = new MessageChannel();
  const turns: (() => void)[] = [];
  channel.port1.onmessage = () => turns.shift()?.();
  return {
    tables: { threads, expressions },
    placeOf(uri) {
      const folder = start()
        .folders.map(asFolder)
        .find((root) => uri.startsWith(root));
      const root = folder ?? uri.slice(0, uri.lastIndexOf('/') + 1);
      return { root, file: decodeURIComponent(uri.slice(root.length)) };
    },
    uriOf: ({ root, file }) => root + file.split('/').map(encodeURIComponent).join('/'),
    load: ({ root, file }) =>
      connection.sendRequest<ReadFile>(READ_REQUEST, { uri: root + file.split('/').map(encodeURIComponent).join('/') }),
    workbooksIn: (folder) => connection.sendRequest<string[]>(WORKBOOKS_REQUEST, { folder }),
    page: () => start().page,
    today,
    now: () => performance.now(),
    // A browser's timers take milliseconds; a message does not.
    turn: () =>
      new Promise((resolve) => {
        turns.push(resolve);
        channel.port2.postMessage(undefined);
      }),
  };
}

function asFolder(uri: string): string {
  return uri.endsWith('/') ? uri : `${uri}/`;
}
