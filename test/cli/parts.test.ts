/** An incomplete installation: the missing file is named with the fix, and not reported as an error in a workbook. */
import { spawnSync } from 'node:child_process';
import { copyFileSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { ROOT } from '../server/client.ts';
import { LOGS, MACHINE } from './logs.ts';
import { folder } from './terminal.ts';

const place = folder();
afterAll(() => place.remove());
const plain = place.file('plain.alignbook.yaml', LOGS['a screw in']!);
const work = place.file('sums.alignbook.yaml', MACHINE.replace('leg: 100 mm', 'leg: 90 mm + 3/8 in'));

const PARTS = ['alignbook.cjs', 'program.cjs', 'expressions.cjs', 'files.cjs', 'server.cjs'];

function ran(spoil: (dist: string) => void, words: readonly string[], input = '') {
  for (const part of PARTS) copyFileSync(join(ROOT, 'dist', part), join(place.path, part));
  spoil(place.path);
  const program = join(place.path, 'alignbook.cjs');
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...words], { input, encoding: 'utf8' });
  return { status, stdout, stderr };
}

const without = (part: string) => (dist: string) => rmSync(join(dist, part));
const half = (part: string) => (dist: string) => {
  const whole = readFileSync(join(ROOT, 'dist', part));
  // Wherever the cut falls, what is left is no program.
  writeFileSync(join(dist, part), `${whole.subarray(0, whole.length / 2).toString()}(`);
};

test.each([
  ['check', 'expressions.cjs', ['check', work]],
  ['next --json', 'expressions.cjs', ['next', '--json', work]],
  ['report', 'files.cjs', ['report', plain]],
  ['draw', 'files.cjs', ['draw', plain, '--station', 'M2', '--out', place.file('x.svg', '')]],
  ['check', 'program.cjs', ['check', plain]],
  ['server', 'server.cjs', ['server', '--stdio']],
] as const)('`%s` without `%s`', (_, part, words) => {
  const stderr = `alignbook: the program file \`${part}\` is missing or damaged. Reinstall Alignbook.\n`;
  const end = { status: 2, stdout: '', stderr };
  expect(ran(without(part), words)).toEqual(end);
  expect(ran(half(part), words)).toEqual(end);
});

test('the server, at the first expression', () => {
  const message = (method: string, params: object, id?: number) => {
    const text = JSON.stringify({ jsonrpc: '2.0', id, method, params });
    return `Content-Length: ${Buffer.byteLength(text)}\r\n\r\n${text}`;
  };
  const uri = 'untitled:sums';
  const capabilities = { textDocument: { diagnostic: {} } };
  const textDocument = { uri, languageId: 'alignbook', version: 1, text: readFileSync(work, 'utf8') };
  const input =
    message('initialize', { processId: null, rootUri: null, capabilities }, 1) +
    message('initialized', {}) +
    message('textDocument/didOpen', { textDocument }) +
    message('textDocument/diagnostic', { textDocument: { uri } }, 2);
  const { status, stderr, stdout } = ran(without('expressions.cjs'), ['server', '--stdio'], input);
  expect(status).toBe(2);
  expect(stderr).toContain('the program file `expressions.cjs` is missing');
  expect(stdout).not.toContain('quantity.expression');
});

test('what needs no missing part works without it', () => {
  const spoil = (dist: string) => ['expressions.cjs', 'files.cjs', 'server.cjs'].forEach((part) => without(part)(dist));
  expect(ran(spoil, ['check', plain])).toEqual({ status: 0, stdout: '', stderr: '' });
});
