/** The server in a web worker, for editors in a browser. */
import {
  BrowserMessageReader,
  BrowserMessageWriter,
  createConnection,
  ProposedFeatures,
} from 'vscode-languageserver/browser';
import { cleanWriter } from './hosts/clean-writer.ts';
import type { Start } from './hosts/host.ts';
import { serve } from './serve.ts';
import { workerHost } from './hosts/worker-host.ts';

declare const ALIGNBOOK_VERSION: string;
declare const self: DedicatedWorkerGlobalScope;

const writer = cleanWriter(new BrowserMessageWriter(self));
const connection = createConnection(ProposedFeatures.all, new BrowserMessageReader(self), writer);
let start: Start = { folders: [] };
serve(
  connection,
  workerHost(connection, () => start),
  ALIGNBOOK_VERSION,
  (startOfClient) => (start = startOfClient),
);
