/** The name in the user's settings, in cells that are completed. */
import { afterEach, expect, test } from 'vitest';
import {
  CompletionRequest,
  type CompletionList,
  type InsertReplaceEdit,
  type TextEdit,
} from 'vscode-languageserver-protocol';
import type { VersionedEdits } from '../../src/model/index.ts';
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

test('a mark that begins a new visit begins it with the name', async () => {
  client = await connected(started());
  await client.connection.sendNotification('workspace/didChangeConfiguration', {
    settings: { alignbook: { by: 'Jo Vance' } },
  });
  const text = [MACHINE, LIMITS, 'session: spring\n', 'marks: M1\nshots: centre\n', 'release: in service\nby: kt\n'];
  await client.open(URI, text.join('---\n'));
  const answer = await client.connection.sendRequest<VersionedEdits>('alignbook/placeMark', {
    uri: URI,
    cell: 3,
    path: 'shots',
    right: 1,
    up: 0,
    anew: true,
  });
  const [edit] = answer.documentChanges[0]!.edits;
  expect(edit!.newText).toBe('---\nsession: another look\nby: Jo Vance\n---\nmarks: M1\nshots: 1 right 0 up\n');
});
