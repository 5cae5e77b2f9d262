/** Quick fixes in a visit that was signed: the editor asks before it makes them. */
import { CodeActionRequest, type CodeAction } from 'vscode-languageserver-protocol/node';
import { afterEach, expect, test } from 'vitest';
import { LIMITS, MACHINE } from '../support/log.ts';
import { connected, PULLING, started, type Client } from './client.ts';

const URI = 'untitled:signed.alignbook.yaml';
const VISIT = ['session: spring\ndat: 2026-03-14\n', 'marks: M1\nshots: centre\n'];
const RELEASE = 'release: in service\nby: kt\ndate: 2026-03-14\n';
const ASKING = { ...PULLING, workspace: { ...PULLING.workspace, workspaceEdit: { changeAnnotationSupport: {} } } };

let client: Client | undefined;
afterEach(() => client?.stop());

async function fixesIn(cells: readonly string[], capabilities = ASKING): Promise<CodeAction[]> {
  client = await connected(started(), capabilities);
  const text = [MACHINE, LIMITS, ...cells].join('---\n');
  await client.open(URI, text);
  const position = { line: text.split('\n').findIndex((line) => line.startsWith('dat:')), character: 1 };
  const actions = await client.connection.sendRequest(CodeActionRequest.type, {
    textDocument: { uri: URI },
    range: { start: position, end: position },
    context: { diagnostics: [] },
  });
  return (actions ?? []) as CodeAction[];
}

test('a fix of a signed cell names who signed it, and is to be confirmed', async () => {
  const [fix] = (await fixesIn([...VISIT, RELEASE])).filter(({ title }) => title.startsWith('Write'));
  expect(fix).toMatchObject({
    title: 'Write `date` (signed by kt on 2026-03-14)',
    edit: { changeAnnotations: { signed: { needsConfirmation: true } } },
  });
  const changes = fix!.edit!.documentChanges!.flatMap((one) => ('edits' in one ? one.edits : []));
  expect(changes).toEqual([expect.objectContaining({ annotationId: 'signed' })]);
});

test('an open visit is changed at once, and comments change nothing that was signed', async () => {
  const open = await fixesIn(VISIT);
  expect(open.find(({ title }) => title === 'Write `date`')?.edit).not.toHaveProperty('changeAnnotations');
  await client!.stop();
  const signed = await fixesIn([...VISIT, RELEASE]);
  const allow = signed.find(({ title }) => title.startsWith('Intended'));
  expect(allow?.edit ?? {}).not.toHaveProperty('changeAnnotations');
});

test('an editor that cannot ask still shows who signed', async () => {
  const [fix] = (await fixesIn([...VISIT, RELEASE], PULLING as typeof ASKING)).filter(({ title }) =>
    title.startsWith('Write'),
  );
  expect(fix?.title).toContain('signed by kt');
  expect(fix?.edit).not.toHaveProperty('changeAnnotations');
});
