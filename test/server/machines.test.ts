/** The list of machines in the open folders: as edited, as on disk, and after files change. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterEach, beforeEach, expect, test } from 'vitest';
import type { MachineList } from '../../src/model/index.ts';
import { CENTRED, LIMITS, MACHINE } from '../support/log.ts';
import { connected, started, type Client } from './client.ts';

const LOG = [MACHINE, LIMITS, 'session: spring\ndate: 2026-05-02\n', CENTRED.M1].join('---\n');
let [folder, client] = ['', undefined as Client | undefined];
beforeEach(() => (folder = mkdtempSync(join(tmpdir(), 'machines-'))));
afterEach(async () => {
  await client?.stop();
  rmSync(folder, { recursive: true });
});

const put = (file: string, text: string | Uint8Array) => writeFileSync(join(folder, file), text);
const uriOf = (file: string) => pathToFileURL(join(folder, file)).href;
const begin = async () => (client = await connected(started(), undefined, pathToFileURL(folder).href));

/** As a client does it: again until nothing is left. `wren: needs: outside: M2` by file. */
async function list(today = '2026-05-20'): Promise<{ machines: Record<string, string>; requests: number }> {
  for (let requests = 1; ; requests += 1) {
    const { machines, rest } = await client!.connection.sendRequest<MachineList>('alignbook/machines', { today });
    if (rest > 0) continue;
    const line = (one: MachineList['machines'][number]) => [
      one.uri.slice(uriOf('').length + 1),
      `${'name' in one ? `${one.name}: ` : ''}${one.group}: ${one.says}`,
    ];
    return { machines: Object.fromEntries(machines.map(line)), requests };
  }
}
const changed = (type: 1 | 2 | 3, ...files: string[]) =>
  client!.connection.sendNotification('workspace/didChangeWatchedFiles', {
    changes: files.map((file) => ({ uri: uriOf(file), type })),
  });

test('every workbook below the folder is a line, and a bad one does not stop the others', async () => {
  mkdirSync(join(folder, 'loft'));
  put('loft/wren.alignbook.yaml', LOG);
  put('bytes.alignbook.yaml', new Uint8Array([0xff, 0xfe, 0x41]));
  put('empty.alignbook.yaml', '');
  put('broken.alignbook.yaml', 'machine: [\n');
  put('notes.yaml', 'machine: other\n');
  await begin();
  expect((await list()).machines).toEqual({
    'loft/wren.alignbook.yaml': 'wren: needs: not shot: M2, M3, lens · not released since 2026-05-02',
    'bytes.alignbook.yaml': 'unreadable: it is not UTF-8 text',
    'empty.alignbook.yaml': 'unreadable: empty: no machine in it yet',
    'broken.alignbook.yaml': 'unreadable: line 1: the machine cell has errors',
  });
});

test('an open workbook is listed as it is edited, and as on disk once it is closed', async () => {
  put('wren.alignbook.yaml', LOG);
  await begin();
  const uri = uriOf('wren.alignbook.yaml');
  await client!.open(uri, LOG);
  expect((await list()).machines['wren.alignbook.yaml']).toMatch(/needs: not shot/);
  await client!.change(uri, 2, { text: `${LOG}---\ncare: M2\nfound: cracked\n` });
  expect((await list()).machines['wren.alignbook.yaml']).toMatch(/needs: do not fire: M2 cracked/);
  await client!.connection.sendNotification('textDocument/didClose', { textDocument: { uri } });
  expect((await list()).machines['wren.alignbook.yaml']).toMatch(/needs: not shot/);
});

test('files that are written, created, renamed or deleted on disk are followed', async () => {
  put('wren.alignbook.yaml', LOG);
  await begin();
  expect(Object.keys((await list()).machines)).toEqual(['wren.alignbook.yaml']);
  put('wren.alignbook.yaml', LOG.replace('2026-05-02', '2026-05-03'));
  put('tern.alignbook.yaml', LOG.replace('wren', 'tern'));
  await changed(2, 'wren.alignbook.yaml');
  await changed(1, 'tern.alignbook.yaml');
  expect((await list()).machines).toEqual({
    'wren.alignbook.yaml': expect.stringMatching(/since 2026-05-03$/) as string,
    'tern.alignbook.yaml': expect.stringMatching(/^tern: /) as string,
  });
  rmSync(join(folder, 'wren.alignbook.yaml'));
  await changed(3, 'wren.alignbook.yaml');
  expect(Object.keys((await list()).machines)).toEqual(['tern.alignbook.yaml']);
});

test('a description that others take over is not listed, and its change reaches them', async () => {
  put('shared.alignbook.yaml', MACHINE);
  put('wren.alignbook.yaml', LOG.replace(MACHINE, 'machine: wren\nfrom: shared.alignbook.yaml\n'));
  await begin();
  expect((await list()).machines).toEqual({
    'wren.alignbook.yaml': expect.stringMatching(/not shot: M2, M3/) as string,
  });
  put('shared.alignbook.yaml', `${MACHINE}practice: {seed: 7, level: 1}\n`);
  await changed(2, 'shared.alignbook.yaml');
  expect((await list()).machines['wren.alignbook.yaml']).toMatch(/^wren: practice: /);
});

test('what is due follows the day that is asked about', async () => {
  const released = [`${MACHINE}care: {M1: every 3 months}\n`, LIMITS, 'session: spring\ndate: 2026-03-07\n'];
  const cells = ['care: M1\ndid: inspected\n', ...Object.values(CENTRED), 'release: in service\n'];
  put('wren.alignbook.yaml', [...released, ...cells].join('---\n'));
  await begin();
  const on = async (day: string) => (await list(day)).machines['wren.alignbook.yaml'];
  expect(await on('2026-04-01')).toBe('wren: service: within · next 2026-06-07');
  expect(await on('2026-05-20')).toBe('wren: due: within · M1 in 18 days');
  expect(await on('2026-06-08')).toBe('wren: due: within · M1 overdue since 2026-06-07');
});

test('a large folder is answered in parts, and read once', async () => {
  const count = 60;
  for (let k = 0; k < count; k += 1) put(`m${k}.alignbook.yaml`, LOG.replace('wren', `m${k}`));
  await begin();
  const first = await list();
  expect(Object.keys(first.machines)).toHaveLength(count);
  const again = await list();
  expect(again.machines).toEqual(first.machines);
  console.log(`${count} workbooks: ${first.requests} answers at first, then ${again.requests}`);
  expect(again.requests).toBe(1);
});
