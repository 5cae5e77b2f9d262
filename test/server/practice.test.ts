/** Practice over the wire: what is hidden stays hidden, and what is asked for is answered. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Requests } from '../../src/model/index.ts';
import { connected, started, type Client } from './client.ts';
import { answersAbout } from './questions.ts';

let client: Client;
beforeAll(async () => {
  client = await connected(started());
});
afterAll(() => client.stop());

async function ask<Name extends keyof Requests>(name: Name, params: Requests[Name]['params']) {
  return (await client.connection.sendRequest(name, params)) as Requests[Name]['answer'];
}

const BLANKS = '---\nadjust: M1\nturn: {A: in 1/8}\n---\nmarks: M2\nshots: {near: , far: }\n';
const uriOf = (seed: number) => `file:///practice/${seed}.alignbook.yaml`;

async function opened(seed: number): Promise<{ uri: string; text: string }> {
  const made = await ask('alignbook/practise', { seed, level: 2 });
  const text = made!.text + BLANKS;
  await client.open(uriOf(seed), text);
  return { uri: uriOf(seed), text };
}

test('machines that differ in their seed alone give the same answers to everything an editor asks', async () => {
  const seeds = [734561, 734562];
  const answers = [];
  for (const seed of seeds) {
    const { uri, text } = await opened(seed);
    const status = await ask('alignbook/status', { uri });
    const panel = await ask('alignbook/panel', { uri, station: 'M2' });
    const blanks = await ask('alignbook/blanks', { uri });
    const record = await ask('alignbook/record', { uri, file: 'x', hash: '0'.repeat(64), version: '1' });
    const all = { ...(await answersAbout(client, uri, text, 24)), status, panel, blanks, record };
    answers.push(JSON.stringify(all).replaceAll(String(seed), 'SEED'));
  }
  expect(answers[0]!.length).toBeGreaterThan(10_000);
  expect(answers[1]).toBe(answers[0]);
  expect(answers[0]).toContain('PRACTICE');
});

test('a shot is fired for a blank alone, and only then its tape is answered', async () => {
  const { uri } = await opened(12);
  const blanks = (await ask('alignbook/blanks', { uri }))!;
  expect(blanks.map(({ station, label, isExpected }) => [station, label, isExpected])).toEqual([
    ['M2', 'near', false],
    ['M2', 'far', false],
  ]);
  const [near] = blanks;
  expect((await ask('alignbook/panel', { uri }))!.practice!.tape).toBeUndefined();
  const fired = (await ask('alignbook/panel', { uri, fired: near!.place }))!;
  expect(fired.figure.station).toBe('M2');
  expect(fired.practice!.tape!.burnt!.core.length).toBeGreaterThan(20);
  expect(fired.practice!.tape!.compared).toBeUndefined();
});

test('an expectation is written by an edit, and nonsense is refused', async () => {
  const { uri } = await opened(13);
  const [near] = (await ask('alignbook/blanks', { uri }))!;
  const edits = await ask('alignbook/expect', { uri, ...near!.place, words: '1 left 2 up' });
  expect(edits!.documentChanges[0]!.edits[0]!.newText).toBe('x-expected: {near: 1 left 2 up}\n');
  expect(await ask('alignbook/expect', { uri, ...near!.place, words: 'somewhere' })).toBeNull();
});

test('the closing sheet is answered for practice, and not for a real machine', async () => {
  const { uri, text } = await opened(14);
  // Before anything is shot it would show what is hidden.
  expect(await ask('alignbook/closing', { uri })).toBeNull();
  const shot = 'file:///practice/shot.alignbook.yaml';
  const station = /^ {2}(\w+): \{centre/m.exec(text)![1]!;
  await client.open(
    shot,
    `${text}---\nmarks: ${station}\nshots: ${/near:/.test(text) && station !== 'M1' ? '{near: centre, far: centre}' : 'centre'}\n`,
  );
  expect((await ask('alignbook/closing', { uri: shot }))!.rows.length).toBeGreaterThan(3);
  const real = 'file:///practice/real.alignbook.yaml';
  await client.open(real, text.replace(/^practice: .*\n/m, ''));
  expect(await ask('alignbook/closing', { uri: real })).toBeNull();
  expect(await ask('alignbook/blanks', { uri: real })).toEqual([]);
  expect((await ask('alignbook/panel', { uri: real }))!.practice).toBeUndefined();
});
