/** The server over standard input and output, or Node IPC. */
import { writeSync } from 'node:fs';
import { join } from 'node:path';
import { setFlagsFromString } from 'node:v8';
import {
  createConnection,
  IPCMessageReader,
  IPCMessageWriter,
  ProposedFeatures,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver/node';
import { part } from '../disk/index.ts';
import { threads, type Tables } from '../language/index.ts';
import { cleanWriter } from './hosts/clean-writer.ts';
import { HeaderCheck } from './hosts/header-check.ts';
import { nodeHost } from './hosts/node-host.ts';
import { serve } from './serve.ts';

declare const ALIGNBOOK_VERSION: string;
declare const require: (file: './expressions.cjs') => { expressions: Tables['expressions'] };
declare const __dirname: string;

// A server runs as long as its editor. A young generation that stays as small as at the start halves the memory of a
// long workbook and shortens the pauses; opening it takes 5 % longer. By default the heap may also grow to four times
// what is in use before it is collected.
setFlagsFromString('--semi-space-growth-factor=1');
setFlagsFromString('--heap-growing-percent=50');

const connection = process.argv.includes('--node-ipc')
  ? createConnection(ProposedFeatures.all, new IPCMessageReader(process), cleanWriter(new IPCMessageWriter(process)))
  : createConnection(ProposedFeatures.all, checkedInput(), cleanWriter(new StreamMessageWriter(process.stdout)));

const tables: Tables = {
  threads,
  expressions: () => part('expressions.cjs', () => require('./expressions.cjs')).expressions(),
};
serve(connection, nodeHost(tables, join(__dirname, '..', 'shared', 'findings.md')), ALIGNBOOK_VERSION);

/** Standard input; the process ends with exit code 1 when it is malformed. */
function checkedInput(): StreamMessageReader {
  const { stdin } = process;
  const headers = new HeaderCheck();
  const endFor = (wrong: string | undefined) => {
    if (wrong === undefined) return;
    writeSync(2, `alignbook server: invalid message: ${wrong}. The server stops.\n`);
    process.exit(1);
  };
  stdin.on('data', (chunk: Uint8Array) => endFor(headers.wrongIn(chunk)));
  stdin.on('end', () => endFor(headers.wrongAtEnd()));
  const reader = new StreamMessageReader(stdin);
  // Its timer would keep the process alive after half a message, and nothing listens to it.
  reader.partialMessageTimeout = 0;
  return reader;
}
