/** A workbook full of control characters and bidirectional controls: none of them is sent, except in edits. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { CodeActionRequest } from 'vscode-languageserver-protocol/node';
import { LIMITS, MACHINE } from '../support/log.ts';
import { connected, PULLING, started, type Client } from './client.ts';
import { answersAbout, answersAboutAll } from './questions.ts';

const ORDERS = /[\p{Cc}\p{Zl}\p{Zp}\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]/u;
/** Of several lines a text may be. */
const ORDERS_IN_LINES = /(?![\n\t])[\p{Cc}\p{Zl}\p{Zp}\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]/u;
const EVIL = ['\u001b[2J', '\u0007', '\u202e', '\u2028', '\u0085', '\u009b31m', '\u2066'];

/** Every place for a user's own words, each with all control characters. */
const evil = (word: string) => `${word}${EVIL.join(word)}`;
const LOG = [
  MACHINE.replace('machine: wren', `machine: wren\ntitle: ${evil('t')}`),
  LIMITS.replace('limits: workshop', `limits: ${evil('l')}`),
  `session: ${evil('s')}\nreason: ${evil('r')}\nby: ${evil('b')}\n`,
  `session: "two\\nlines \\e[2J"\n`,
  `marks: M2\nshots: {near: 1.5 right 2.0 down, far: 6.0 right 5.5 down, ${evil('x')}: 1 right}\nnote: ${evil('n')}\n` +
    `${evil('k')}: ${evil('v')}\n`,
  `care: ${evil('M1')}\nfound: ${evil('f')}\n`,
  `care: lens\ndid: cleaned in place\nwith: ${evil('w')}\n`,
  `checks: ${evil('c')}\ndone: [${evil('d')}]\nopen: [${evil('o')}]\n`,
  `event: ${evil('e')}\n`,
  `work: ${evil('k')}\na: 1 mm\n${evil('q')}: 2 ${evil('u')}\n`,
  `adjust: M1\nturn: {${evil('B')}: in 1/4}\n`,
  `release: in service\nby: ${evil('z')}\n`,
].join('---\n');

let client: Client;
const URI = 'untitled:evil';
beforeAll(async () => {
  client = await connected(started(), PULLING);
  await client.open(URI, LOG);
});
afterAll(() => client.stop());

/** Every string of an answer with its key, except text that is written to the file. */
function strings(value: unknown, key = ''): [key: string, text: string][] {
  if (typeof value === 'string') return [[key, value]];
  if (typeof value !== 'object' || value === null || key === 'newText') return [];
  return Object.entries(value).flatMap(([name, inner]) => strings(inner, Array.isArray(value) ? key : name));
}

const LINE = ['label', 'name', 'title', 'detail', 'brief'];

test('nothing that is shown holds one', async () => {
  const { connection } = client;
  const answers = {
    ...(await answersAbout(client, URI, LOG, 400)),
    all: await answersAboutAll(client),
    status: await connection.sendRequest('alignbook/status', { uri: URI }),
    sheet: await connection.sendRequest('alignbook/panel', { uri: URI, station: 'M2' }),
    below: await connection.sendRequest('alignbook/cells', { uri: URI, cells: [URI] }),
    record: await connection.sendRequest('alignbook/record', { uri: URI, file: 'a', hash: '0', version: '1' }),
  };
  const { layout, ...shown } = answers;
  const result = strings(shown);
  expect(result.filter(([key, text]) => (LINE.includes(key) ? ORDERS : ORDERS_IN_LINES).test(text))).toEqual([]);
  expect(layout).toEqual([]);
  // They are shown instead: findings, hovers, values, outline, record.
  const isEscaped = (answer: unknown) => strings(answer).some(([, text]) => /\\u001b|\\u202e/.test(text));
  const escaped = Object.entries(shown)
    .filter(([, answer]) => isEscaped(answer))
    .map(([name]) => name);
  expect(escaped).toEqual(expect.arrayContaining(['findings', 'hovers', 'symbols', 'record']));
  console.log(`${result.length} texts, shown in ${escaped.join(', ')}`);
});

test('edits keep every byte', async () => {
  const uri = 'untitled:edited';
  await client.open(uri, [MACHINE, `by: kt ${EVIL[0]}\nmarks: M1\nshots: centre\n`].join('---\n'));
  const range = { start: { line: 0, character: 0 }, end: { line: 999, character: 0 } };
  const context = { diagnostics: [], only: ['quickfix'] };
  const actions = await client.connection.sendRequest(CodeActionRequest.type, {
    textDocument: { uri },
    range,
    context,
  });
  const changes = actions!.flatMap((action) => ('edit' in action ? action.edit!.documentChanges! : []));
  const edits = changes.flatMap((change) => ('edits' in change ? change.edits : []));
  expect(edits.map((edit) => ('newText' in edit ? edit.newText : '')).join('')).toContain(`by: kt ${EVIL[0]}`);
});
