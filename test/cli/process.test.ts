/** The program itself: what only a process has are pipes, a standard input and an exit code. */
import { execFileSync, spawn, spawnSync } from 'node:child_process';
import { chmodSync, linkSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { checkAnswer, nextAnswer } from './answers.ts';
import { builtInto } from './built.ts';
import { LOGS } from './logs.ts';
import { folder } from './terminal.ts';

const place = folder();
const program = join(place.path, 'alignbook.cjs');
const good = place.file('good.alignbook.yaml', LOGS['all within']!);
const bad = place.file('bad.alignbook.yaml', LOGS['mistakes among good cells']!);

beforeAll(() => builtInto(place.path), 60_000);
afterAll(() => place.remove());

function ran(
  words: readonly string[],
  { input = '', env = {} }: { input?: string | Uint8Array; env?: Record<string, string> } = {},
) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...words], {
    input,
    encoding: 'utf8',
    env: { ...process.env, ...env },
  });
  return { status, stdout, stderr };
}

test.each([
  [['--version'], 0, '1.2.3\n', ''],
  [['check', good], 0, '', ''],
  [['check', bad], 1, expect.stringContaining(' error '), ''],
  [
    ['check', 'nowhere.yaml'],
    2,
    'nowhere.yaml:1:1 error file.unreadable This file cannot be read: there is no such file.\n',
    '',
  ],
  [['next', bad], 0, expect.stringContaining('FINDINGS'), ''],
  [['next', 'nowhere.yaml'], 2, '', expect.stringContaining('file.unreadable')],
  [['turn', good], 2, '', expect.stringContaining('There is no command `turn`.')],
])('%j', (words, status, stdout, stderr) => {
  expect(ran(words)).toEqual({ status, stdout, stderr });
});

test('standard input, once or between files', () => {
  const one = ran(['next', '--json', '-'], { input: LOGS['a screw in']! });
  expect(nextAnswer(one.stdout)).toMatchObject({ file: '-', verdict: 'continue' });
  const many = ran(['check', '--json', good, '-', bad], { input: 'nots: x\n' });
  const answers = many.stdout
    .trimEnd()
    .split('\n')
    .map((line) => checkAnswer(`${line}\n`));
  expect(answers.map(({ file }) => file)).toEqual([good, '-', bad]);
  expect(answers[1]!.findings[0]).toMatchObject({ code: 'cell.kind' });
  expect(checkAnswer(ran(['check', '--json', '-'], { input: Uint8Array.of(0xff) }).stdout).findings).toMatchObject([
    { code: 'file.unreadable' },
  ]);
  expect(ran(['check', '-']).status).toBe(0);
});

test('arithmetic, whose parser is a file of its own', () => {
  expect(ran(['check', '-'], { input: 'work: a patch\narea: 3 mm * (2 mm + 1 mm)\n' })).toEqual({
    status: 0,
    stdout: '',
    stderr: '',
  });
  expect(ran(['check', '-'], { input: 'work: a patch\narea: 3 mm * (2 mm + 1 rad)\n' }).stdout).toContain(
    'quantity.dimension',
  );
});

test('standard input is read once, however often it is named', () => {
  const { stdout, status } = ran(['check', '--json', '-', good, '-'], { input: 'nots: x\n' });
  const answers = stdout
    .trimEnd()
    .split('\n')
    .map((line) => checkAnswer(`${line}\n`));
  expect(answers.map(({ file, findings }) => [file, findings.length])).toEqual([
    ['-', 1],
    [good, 0],
    ['-', 1],
  ]);
  expect(status).toBe(1);
});

test('standard input without end is not read to its end', () => {
  const { stdout, status } = spawnSync('sh', ['-c', `yes 'note: x' | "${process.execPath}" "${program}" check -`], {
    encoding: 'utf8',
  });
  expect([stdout, status]).toEqual([
    '-:1:1 error file.unreadable This file cannot be read: it is larger than 64 MB.\n',
    2,
  ]);
});

test('a pipe that a shell names as a file', () => {
  const { stdout, status } = spawnSync(
    'sh',
    ['-c', `cat "${bad}" | "${process.execPath}" "${program}" check --json /dev/stdin`],
    { encoding: 'utf8' },
  );
  expect(checkAnswer(stdout).findings).toEqual(checkAnswer(ran(['check', '--json', bad]).stdout).findings);
  expect(status).toBe(1);
});

test('standard input that comes late, and in pieces', async () => {
  const child = spawn(process.execPath, [program, 'check', '--json', '-']);
  let out = '';
  child.stdout.on('data', (chunk: Buffer) => {
    out += chunk;
  });
  const ended = new Promise<number | null>((resolve) => child.on('close', resolve));
  child.stdin.write('note: x\n---\n');
  await new Promise((resolve) => setTimeout(resolve, 300));
  child.stdin.end('nots: y\n');
  expect(await ended).toBe(1);
  expect(checkAnswer(out).findings).toMatchObject([{ code: 'cell.kind', range: { start: { line: 2, character: 0 } } }]);
});

test('the file behind standard input is not written over', () => {
  const out = join(place.path, 'link.html');
  linkSync(good, out);
  const { stderr, status } = spawnSync(
    'sh',
    ['-c', `"${process.execPath}" "${program}" report - --out "${out}" < "${good}"`],
    { encoding: 'utf8' },
  );
  expect([status, stderr]).toEqual([
    2,
    `alignbook: ${out} is one of the files that were read and is not overwritten.\n`,
  ]);
  expect(readFileSync(good, 'utf8')).toBe(LOGS['all within']);
});

test('a PDF on standard output, every byte of it', () => {
  const bytes = Buffer.concat([
    Buffer.from('%PDF-1.4\n'),
    Buffer.from(Array.from({ length: 100_000 }, (_, k) => k % 256)),
    Buffer.from('%%EOF\n'),
  ]);
  const browser = place.file(
    'browser',
    `#!/bin/sh\nfor word; do case $word in --print-to-pdf=*) cp "${place.file('made.pdf', bytes)}" "\${word#*=}" ;; esac; done\n`,
  );
  chmodSync(browser, 0o755);
  const { stdout, stderr, status } = spawnSync(process.execPath, [program, 'report', good, '--pdf', '--out', '-'], {
    env: { ...process.env, CHROMIUM: browser },
  });
  expect([status, stderr.toString(), stdout.equals(bytes)]).toEqual([0, '', true]);
});

test('no colour if the output is no terminal, whatever the environment', () => {
  for (const env of [{}, { NO_COLOR: '1' }, { FORCE_COLOR: '3', TERM: 'xterm-256color' }]) {
    expect(ran(['next', good], { env }).stdout).not.toContain('\u001b');
  }
});

test('a reader that goes away is no error', () => {
  const many = place.file('many.alignbook.yaml', '---\nnots: a mistake\n'.repeat(3000));
  const { stdout, stderr, status } = spawnSync(
    'sh',
    ['-c', `"${process.execPath}" "${program}" check "${many}" | head -1`],
    { encoding: 'utf8' },
  );
  expect([stderr, status]).toEqual(['', 0]);
  expect(stdout.split('\n')).toHaveLength(2);
});

test('a long answer arrives whole through a slow pipe', () => {
  const many = place.file('many.alignbook.yaml', '---\nnots: a mistake\n'.repeat(3000));
  const out = execFileSync(
    'sh',
    ['-c', `"${process.execPath}" "${program}" check --json "${many}" | (sleep 0.5; cat)`],
    { encoding: 'utf8', maxBuffer: 1e8 },
  );
  expect(checkAnswer(out).findings).toHaveLength(3000);
});
