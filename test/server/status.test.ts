/** What the editor shows beside a workbook: verdict, steps, errors. */
import { afterEach, expect, test } from 'vitest';
import type { Status } from '../../src/model/index.ts';
import { LIMITS, MACHINE } from '../support/log.ts';
import { connected, started, type Client } from './client.ts';

const URI = 'untitled:first.alignbook.yaml';
const LOG = [
  MACHINE,
  LIMITS,
  'marks: M1\nshots: centre\n',
  'marks: M2\nshots: {near: 1.5 right 2 down, far: 6 right 5.5 down}\n',
].join('---\n');

let client: Client | undefined;
afterEach(() => client?.stop());

async function status(text: string): Promise<Status | null> {
  client = await connected(started());
  await client.open(URI, text);
  return client.connection.sendRequest<Status | null>('alignbook/status', { uri: URI });
}

test('a log that goes on names the step and the cell to append', async () => {
  const { verdict, steps, findings } = (await status(LOG))!;
  expect({ verdict, findings }).toEqual({ verdict: 'continue', findings: { error: 0, warning: 0 } });
  expect(steps[0]).toMatchObject({
    brief: expect.stringMatching(/^M1 [ABC] (in|out) \d/) as string,
    say: expect.stringMatching(/M1/) as string,
    cell: expect.stringMatching(/^adjust: M1\nturn: /) as string,
  });
  expect(steps.at(-1)!.cell).toMatch(/^marks: M2\n/);
});

test('errors are counted', async () => {
  expect(await status(LOG.replace('marks: M2', 'marks: M22'))).toMatchObject({ findings: { error: 1 } });
});

test('a file that is not open has no status', async () => {
  client = await connected(started());
  expect(await client.connection.sendRequest('alignbook/status', { uri: URI })).toBeNull();
});
