/** A server that is killed while it works loses nothing: the client sends its whole state again. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { DidSaveTextDocumentNotification } from 'vscode-languageserver-protocol/node';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { connected, PULLING, ROOT, started } from './client.ts';
import { editOf, randomOf } from './random-edits.ts';
import { answersAbout } from './questions.ts';

test('a server killed during a request answers the next one', async () => {
  const uri = 'untitled:heron.alignbook.yaml';
  const random = randomOf(Number(process.env['SEED'] ?? 1));
  const process1 = started();
  const first = await connected(process1, PULLING);
  let document = TextDocument.create(
    uri,
    'alignbook',
    1,
    readFileSync(join(ROOT, 'examples', 'mistakes.alignbook.yaml'), 'utf8'),
  );
  await first.open(uri, document.getText());
  for (let version = 2; version < 40; version++) {
    const { start, end, text } = editOf(document.getText(), random);
    const change = { range: { start: document.positionAt(start), end: document.positionAt(end) }, text };
    document = TextDocument.update(document, [change], version);
    await first.change(uri, version, change);
  }
  await first.connection.sendNotification(DidSaveTextDocumentNotification.type, { textDocument: { uri } });
  const before = await answersAbout(first, uri, document.getText());
  const missing = first.pull(uri).then(
    () => 'answered',
    () => 'lost',
  );
  const ended = new Promise((resolve) => process1.once('exit', resolve));
  process1.kill('SIGKILL');
  await ended;
  first.connection.dispose();
  expect(['answered', 'lost']).toContain(await missing);

  const second = await connected(started(), PULLING);
  await second.open(uri, document.getText(), document.version);
  expect(await answersAbout(second, uri, document.getText())).toEqual(before);
  await second.stop();
});
