/** The panel's requests, over the wire. */
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { PanelView } from '../../src/model/index.ts';
import { LIMITS, MACHINE } from '../support/log.ts';
import { connected, PULLING, started, type Client } from './client.ts';

const LOG = [
  MACHINE,
  LIMITS,
  'marks: M1\nshots: centre\n',
  'marks: M2\nshots: {near: 1.5 right 2.0 down, far: 6.0 right 5.5 down}\n',
].join('---\n');
const uri = pathToFileURL('/nowhere/log.alignbook.yaml').href;
let client: Client;

beforeAll(async () => {
  client = await connected(started(), PULLING, pathToFileURL('/nowhere').href);
  await client.open(uri, LOG);
});
afterAll(() => client.stop());

const request = <A>(request: string, params: object) => client.connection.sendRequest<A>(request, { uri, ...params });
const lines = LOG.split('\n');
const line = lines.findIndex((one) => one.startsWith('shots: {near'));

test('the panel shows the station to shoot next', async () => {
  const panel = await request<PanelView & { version: number }>('alignbook/panel', {});
  expect(panel).toMatchObject({
    version: 1,
    verdict: 'continue',
    now: { sentence: 'M1: A out 5/16, B in 1/4', log: 'step' },
    resolution: 0.5,
    figure: { station: 'M2', round: 1, rounds: 1 },
  });
  expect(panel.shots.map(({ name, end, right, up }) => [name, end, right, up])).toEqual([
    ['gantry near', 'rear', 1.5, -2],
    ['gantry far', 'front', 6, -5.5],
  ]);
  expect(panel.screws.map(({ part, screw }) => part + screw)).toEqual(['M1A', 'M1B', 'M1C']);
  expect(panel.triedCell).toBeUndefined();
});

test('another station; an unknown station', async () => {
  expect((await request<PanelView>('alignbook/panel', { station: 'M1' })).figure.station).toBe('M1');
  expect((await request<PanelView>('alignbook/panel', { station: '__proto__' })).figure.station).toBe('M2');
});

test('what if: the marks move, the cell to write is there, and nothing else changes', async () => {
  const [plain, tried] = await Promise.all([
    request<PanelView>('alignbook/panel', {}),
    request<PanelView>('alignbook/panel', {
      turns: [
        { part: 'M1', screw: 'A', turns: -0.25 },
        { part: 'M9', screw: 'A', turns: 1 },
      ],
    }),
  ]);
  expect(tried.triedCell).toBe('adjust: M1\nturn: {A: out 1/4}\n');
  expect(tried.figure.expected.length).toBe(2);
  expect(tried.figure.expected).not.toEqual(plain.figure.expected);
  expect(tried.figure.marks).toEqual(plain.figure.marks);
  expect(await request<PanelView>('alignbook/panel', {})).toEqual(plain);
});

test('from the text to the mark, and back', async () => {
  const character = lines[line]!.indexOf('6.0');
  const atCursor = await request<{ station: string; mark: { cell: number; path: string } }>('alignbook/markAt', {
    position: { line, character },
  });
  expect(atCursor).toEqual({ station: 'M2', mark: { cell: 3, path: 'shots/far' } });
  expect(await request('alignbook/location', atCursor.mark)).toEqual({
    uri,
    range: { start: { line, character }, end: { line, character: character + '6.0 right 5.5 down'.length } },
  });
  expect(await request('alignbook/markAt', { position: { line: 0, character: 0 } })).toBeNull();
  expect(await request('alignbook/location', { cell: 99, path: 'shots/far' })).toBeNull();
  for (const path of [['shots/far'], '/shots/far', 'constructor', undefined])
    expect(await request('alignbook/location', { cell: 3, path })).toBeNull();
});

test('a placed mark is one edit of its value', async () => {
  const answer = await request('alignbook/placeMark', { cell: 3, path: 'shots/near', right: -1.2, up: 0.3 });
  const character = lines[line]!.indexOf('1.5');
  expect(answer).toEqual({
    documentChanges: [
      {
        textDocument: { uri, version: 1 },
        edits: [
          {
            range: { start: { line, character }, end: { line, character: character + '1.5 right 2.0 down'.length } },
            newText: '1 left 0.5 up',
          },
        ],
      },
    ],
  });
  for (const path of ['shots', '/shots/near', ['shots/near']])
    expect(await request('alignbook/placeMark', { cell: 3, path, right: 0, up: 0 })).toBeNull();
});

test('marks from before something moved are history: no click writes over them', async () => {
  const stale = pathToFileURL('/nowhere/stale.alignbook.yaml').href;
  await client.open(stale, `${LOG}---\nadjust: M1\nturn: {A: in 1/8}\n`);
  const panel = await client.connection.sendRequest<PanelView>('alignbook/panel', { uri: stale, station: 'M2' });
  expect([panel.figure.state, panel.shots.filter(({ slot }) => slot && slot.cell >= 0)]).toEqual(['stale', []]);
});

test('a file that is not open has no panel', async () => {
  expect(
    await client.connection.sendRequest('alignbook/panel', { uri: 'file:///nowhere/else.alignbook.yaml' }),
  ).toBeNull();
});
