/** The name in the user's settings, in cells that are completed. */
import { afterEach, expect, test } from 'vitest';
import {
  CompletionRequest,
  type CompletionList,
  type InsertReplaceEdit,
  type TextEdit,
} from 'vscode-languageserver-protocol';
import { LIMITS, MACHINE } from '../support/log.ts';
import { connected, PULLING, started, type Client } from './client.ts';

const URI = 'untitled:first.alignbook.yaml';
const LOG = [MACHINE, LIMITS, ''].join('---\n');

let client: Client | undefined;
afterEach(() => client?.stop());

async function completed(label: string, settings: object): Promise<string> {
  client = await connected(started(), {
    ...PULLING,
    textDocument: { ...PULLING.textDocument, completion: { completionItem: { snippetSupport: true } } },
  });
  await client.connection.sendNotification('workspace/didChangeConfiguration', { settings: { alignbook: settings } });
  await client.open(URI, LOG);
  const position = { line: LOG.split('\n').length - 1, character: 0 };
  const list = (await client.connection.sendRequest(CompletionRequest.type, {
    textDocument: { uri: URI },
    position,
  })) as CompletionList;
  return (list.items.find((item) => item.label === label)!.textEdit as TextEdit | InsertReplaceEdit).newText;
}

test.each([
  ['release', { by: 'Jo Vance' }, /\nby: \$\{9:Jo Vance\}\n$/],
  ['session', { by: 'no' }, /\nby: \$\{9:"no"\}\n\$0$/],
  ['release', { by: 'a}b' }, /\nby: \$\{9:"a\\\}b"\}\n$/],
  ['release', {}, /\nby: \$0\n$/],
  ['release', { by: 7 }, /\nby: \$0\n$/],
])('%s with %j', async (label, settings, expected) => expect(await completed(label, settings)).toMatch(expected));
