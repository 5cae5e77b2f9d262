/** The server of the browser in a thread of Node's: a web worker but for its name. The client has the files. */
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { Worker } from 'node:worker_threads';
import {
  AbstractMessageReader,
  AbstractMessageWriter,
  createProtocolConnection,
  type ClientCapabilities,
  type DataCallback,
  type Disposable,
  type Message,
} from 'vscode-languageserver-protocol/node';
import type { FileRequests } from '../../src/model/index.ts';
import { initialized, ROOT, type Client } from './client.ts';

const BEGIN = `
const { parentPort, workerData } = require('node:worker_threads');
globalThis.self = globalThis;
self.postMessage = (message) => parentPort.postMessage(message);
self.addEventListener = () => undefined;
parentPort.on('message', (data) => self.onmessage({ data }));
(0, eval)(require('node:fs').readFileSync(workerData, 'utf8'));
`;

class Received extends AbstractMessageReader {
  private readonly worker: Worker;
  constructor(worker: Worker) {
    super();
    this.worker = worker;
  }
  listen(callback: DataCallback): Disposable {
    this.worker.on('message', callback);
    return { dispose: () => this.worker.off('message', callback) };
  }
}

class Posted extends AbstractMessageWriter {
  private readonly worker: Worker;
  constructor(worker: Worker) {
    super();
    this.worker = worker;
  }
  async write(message: Message): Promise<void> {
    this.worker.postMessage(message);
  }
  end(): void {}
}

/** @param page address of the page about findings */
export async function workerClient(capabilities: ClientCapabilities, folder: string, page: string): Promise<Client> {
  const worker = new Worker(BEGIN, { eval: true, workerData: join(ROOT, 'dist', 'server-worker.js') });
  const connection = createProtocolConnection(new Received(worker), new Posted(worker));
  connection.onRequest('alignbook/read', ({ uri }: FileRequests['alignbook/read']['params']) => read(uri));
  connection.onRequest('alignbook/workbooks', ({ folder: of }: FileRequests['alignbook/workbooks']['params']) =>
    workbooksIn(fileURLToPath(of)),
  );
  const client = await initialized(connection, capabilities, [folder], { page });
  return {
    ...client,
    async stop() {
      connection.dispose();
      await worker.terminate();
    },
  };
}

function read(uri: string): FileRequests['alignbook/read']['answer'] {
  try {
    return { text: readFileSync(fileURLToPath(uri), 'utf8') };
  } catch {
    return { reason: 'there is no such file' };
  }
}

function workbooksIn(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.alignbook.yaml'))
    .map((path) => pathToFileURL(join(folder, path)).href)
    .sort();
}
