/** The server over standard input and output, for editors that start a program. */
import { join } from 'node:path';
import { setFlagsFromString } from 'node:v8';
import { createConnection, IPCMessageReader, IPCMessageWriter, ProposedFeatures, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver/node';
import { threads, type Tables } from '../language/index.ts';
import { cleanWriter } from './clean-writer.ts';
import { nodeHost } from './node-host.ts';
import { serve } from './serve.ts';

declare const ALIGNBOOK_VERSION: string;
declare const require: (file: './expressions.cjs') => { expressions: Tables['expressions'] };
declare const __dirname: string;

// A server runs as long as its editor, beside others: the room for what is thrown away stays as small as at the start.
// That halves the memory of a long workbook, and shortens the pauses; opening it takes a twentieth longer.
setFlagsFromString('--semi-space-growth-factor=1');

const connection = process.argv.includes('--node-ipc')
  ? createConnection(ProposedFeatures.all, new IPCMessageReader(process), cleanWriter(new IPCMessageWriter(process)))
  : createConnection(ProposedFeatures.all, new StreamMessageReader(process.stdin), cleanWriter(new StreamMessageWriter(process.stdout)));

const tables: Tables = { threads, expressions: () => require('./expressions.cjs').expressions() };
serve(connection, nodeHost(tables, join(__dirname, '..', 'shared', 'findings.md')), ALIGNBOOK_VERSION);
