/** In a browser the same questions have the same answers, though there is no disk and no process. */
import { cpSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { connected, PULLING, ROOT, started, type Client } from './client.ts';
import { answersAbout, answersAboutAll } from './questions.ts';
import { workerClient } from './worker.ts';

const EXAMPLES = readdirSync(join(ROOT, 'examples')).filter((name) => name.endsWith('.alignbook.yaml'));

let folder: string;
let clients: readonly [process: Client, worker: Client];
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'alignbook-worker-'));
  mkdirSync(join(folder, '.git'));
  cpSync(join(ROOT, 'examples'), folder, { recursive: true });
  const uri = pathToFileURL(folder).href;
  clients = await Promise.all([
    connected(started(), PULLING, uri),
    workerClient(PULLING, uri, pathToFileURL(join(ROOT, 'shared', 'findings.md')).href),
  ]);
});
afterAll(async () => {
  await Promise.all(clients.map((client) => client.stop()));
  rmSync(folder, { recursive: true });
});

test.each(EXAMPLES)('%s', async (name) => {
  const file = join(folder, name);
  const text = readFileSync(file, 'utf8');
  const uri = pathToFileURL(file).href;
  const [own, other] = await Promise.all(
    clients.map(async (client) => {
      await client.open(uri, text);
      const whole = await answersAbout(client, uri, text);
      const end = { line: 99_999, character: 0 };
      await client.change(uri, 2, {
        range: { start: end, end },
        text: '---\nmarks: M2\nshots: {near: 1 right 1 up, far: 9 left 1 up}\n',
      });
      return { whole, edited: await answersAbout(client, uri, text) };
    }),
  );
  expect(other).toEqual(own);
});

test('the whole folder', async () => {
  const [own, other] = await Promise.all(clients.map(answersAboutAll));
  expect(own!.symbols!.length).toBeGreaterThan(10);
  expect(other).toEqual(own);
});
