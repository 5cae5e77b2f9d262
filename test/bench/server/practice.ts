/** Fire: from the request until the burnt tape is drawn as text, beside an empty round trip to the same server. */
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import {
  createProtocolConnection,
  DidOpenTextDocumentNotification,
  InitializeRequest,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver-protocol/node.js';
import type { BurnFigure, PanelView } from '../../../src/model/index.ts';
import { median } from '../median.ts';

const ROUNDS = 40;
const URI = 'file:///bench/practice.alignbook.yaml';
const BLANKS = '---\nmarks: M2\nshots: {near: , far: }\n';

/** @param folder for what is bundled */
export async function fireRatio(root: string, folder: string): Promise<string> {
  const toSvg = await drawing(root, folder);
  const server = spawn(process.execPath, [join(root, 'dist', 'alignbook.cjs'), 'server', '--stdio'], {
    stdio: ['pipe', 'pipe', 'ignore'],
  });
  const connection = createProtocolConnection(
    new StreamMessageReader(server.stdout!),
    new StreamMessageWriter(server.stdin!),
  );
  connection.listen();
  try {
    await connection.sendRequest(InitializeRequest.type, { processId: null, rootUri: null, capabilities: {} });
    const made = await connection.sendRequest<{ text: string }>('alignbook/practise', { seed: 12, level: 3 });
    const textDocument = { uri: URI, languageId: 'alignbook', version: 1, text: made.text + BLANKS };
    await connection.sendNotification(DidOpenTextDocumentNotification.type, { textDocument });
    const [blank] = await connection.sendRequest<readonly { place: object }[]>('alignbook/blanks', { uri: URI });
    const fire = async () => {
      const params = { uri: URI, fired: blank!.place };
      const view = await connection.sendRequest<PanelView>('alignbook/panel', params);
      return toSvg(view.practice!.tape!, { width: 352, theme: 'light' });
    };
    const empty = () => connection.sendRequest('alignbook/status', { uri: 'file:///none' });
    const [fired, nothing] = [await timed(fire), await timed(empty)];
    return `practice: Fire until its tape is drawn ${fired.toFixed(1)} ms, ${(fired / nothing).toFixed(0)} × an empty round trip (${nothing.toFixed(2)} ms)`;
  } finally {
    connection.dispose();
    server.kill();
  }
}

async function timed(work: () => Promise<unknown>): Promise<number> {
  const times: number[] = [];
  for (let k = 0; k < ROUNDS; k++) {
    const start = performance.now();
    await work();
    times.push(performance.now() - start);
  }
  return median(times);
}

type ToSvg = (figure: BurnFigure, options: { readonly width: number; readonly theme: 'light' }) => string;

async function drawing(root: string, folder: string): Promise<ToSvg> {
  const outfile = join(folder, 'drawing.mjs');
  await build({
    entryPoints: [join(root, 'src', 'drawing', 'index.ts')],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    jsx: 'automatic',
    jsxImportSource: 'preact',
    logLevel: 'warning',
  });
  return ((await import(pathToFileURL(outfile).href)) as { readonly toSvg: ToSvg }).toSvg;
}
