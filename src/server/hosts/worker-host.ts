/**
 * A web worker has no disk: the editor reads files for it (`alignbook/read`) and finds workbooks
 * (`alignbook/workbooks`). The root is the open folder that holds the file, else the file's own.
 */
import type { Connection } from 'vscode-languageserver';
import { expressions, threads } from '../../language/index.ts';
import type { FileRequests } from '../../model/index.ts';
import { today } from './today.ts';
import type { Host, Start } from './host.ts';

export function workerHost(connection: Connection, start: () => Start): Host {
  const request = <Name extends keyof FileRequests>(name: Name, params: FileRequests[Name]['params']) =>
    connection.sendRequest<FileRequests[Name]['answer']>(name, params);
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
    uriOf,
    load: (place) => request('alignbook/read', { uri: uriOf(place) }),
    workbooksIn: (folder) => request('alignbook/workbooks', { folder }),
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

function uriOf({ root, file }: { readonly root: string; readonly file: string }): string {
  return root + file.split('/').map(encodeURIComponent).join('/');
}

function asFolder(uri: string): string {
  return uri.endsWith('/') ? uri : `${uri}/`;
}
