/** A machine `from` another file: only from inside the root, and whatever is wrong with it is one finding. */
import { execFileSync } from 'node:child_process';
import { symlinkSync, truncateSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { checkAnswer } from './answers.ts';
import { LIMITS, MACHINE } from './logs.ts';
import { folder, typed } from './terminal.ts';

const outside = folder();
const secret = outside.file('secret.alignbook.yaml', MACHINE);
const root = folder();
afterAll(() => [root, outside].forEach((one) => one.remove()));

root.file('.git/HEAD', '');
root.file('machines/swift.alignbook.yaml', MACHINE);
root.file('machines/with space ü.alignbook.yaml', MACHINE);
root.file('machines/bad.alignbook.yaml', 'machine: swift\npath: 3\n');
root.file('machines/other.alignbook.yaml', MACHINE.replace('swift', 'heron'));
root.file('machines/binary.alignbook.yaml', Uint8Array.of(0x6d, 0xff, 0x0a));
root.file('machines/back.alignbook.yaml', 'machine: swift\nfrom: ../machines/again.alignbook.yaml\n');
root.file('machines/again.alignbook.yaml', 'machine: swift\nfrom: back.alignbook.yaml\n');
root.file('machines/own.alignbook.yaml', 'machine: swift\nfrom: own.alignbook.yaml\n');
root.file('machines/chain.alignbook.yaml', 'machine: swift\nfrom: ../machines/swift.alignbook.yaml\n');
for (let k = 1; k <= 60; k++)
  root.file(`machines/${k}.alignbook.yaml`, `machine: swift\nfrom: ${k === 60 ? 'swift' : k + 1}.alignbook.yaml\n`);
truncateSync(root.file('machines/large.alignbook.yaml', ''), 70_000_000);
execFileSync('mkfifo', [join(root.path, 'machines', 'pipe.alignbook.yaml')]);
symlinkSync(secret, join(root.path, 'machines', 'link.alignbook.yaml'));
symlinkSync(outside.path, join(root.path, 'elsewhere'));
symlinkSync(join(root.path, 'machines', 'swift.alignbook.yaml'), join(root.path, 'machines', 'inner.alignbook.yaml'));
symlinkSync('loop.alignbook.yaml', join(root.path, 'machines', 'loop.alignbook.yaml'));

/** From a file in a folder of the root. */
function findings(from: string): string[] {
  const file = root.file(
    'logs/2026/log.alignbook.yaml',
    `machine: swift\nfrom: ${from}\n---\n${LIMITS}---\nmarks: M1\nshots: centre\n`,
  );
  return checkAnswer(typed('check', '--json', file).out).findings.map(({ code, message }) => `${code} ${message}`);
}

test.each([
  ['of the root', '../../machines/swift.alignbook.yaml'],
  ['by a roundabout way', './.././2026/../../machines/swift.alignbook.yaml'],
  ['with a strange name', '"../../machines/with space ü.alignbook.yaml"'],
  ['through a second file', '../../machines/chain.alignbook.yaml'],
  ['through 32 files', '../../machines/30.alignbook.yaml'],
  ['through a link that stays inside', '../../machines/inner.alignbook.yaml'],
])('a machine %s', (_, from) => {
  expect(findings(from)).toEqual([]);
});

test.each([
  ['above the root', '../../../secret.alignbook.yaml', 'it is outside the root folder'],
  ['far above', `${'../'.repeat(30)}etc/passwd`, 'it is outside the root folder'],
  ['out and in again', '../../../../x/../machines/swift.alignbook.yaml', 'it is outside the root folder'],
  ['absolute', '/etc/passwd', 'it is outside the root folder'],
  ['an address', 'https://example.com/swift.yaml', 'it is outside the root folder'],
  ['a link to a file outside', '../../machines/link.alignbook.yaml', 'it is outside the repository'],
  ['a link to a folder outside', '../../elsewhere/secret.alignbook.yaml', 'it is outside the repository'],
  ['a link to itself', '../../machines/loop.alignbook.yaml', 'its links form a loop'],
  ['no such file', '../../machines/none.alignbook.yaml', 'there is no such file'],
  ['a folder', '../../machines', 'it is not a file'],
  ['a pipe, which would be waited for', '../../machines/pipe.alignbook.yaml', 'it is not a file'],
  ['70 MB', '../../machines/large.alignbook.yaml', 'it is larger than 64 MB'],
  ['not UTF-8', '../../machines/binary.alignbook.yaml', 'it is not UTF-8 text'],
  ['a machine with mistakes', '../../machines/bad.alignbook.yaml', 'its machine cell has errors'],
  ['no machine of that name', '../../machines/other.alignbook.yaml', 'it has no machine cell named swift'],
  ['two files in a circle', '../../machines/back.alignbook.yaml', 'the `from` of the files forms a loop'],
  ['more files than anybody has', '../../machines/29.alignbook.yaml', 'its chain of files is longer than 32'],
  ['a file that is its own source', '../../machines/own.alignbook.yaml', 'the `from` of the files forms a loop'],
  ['the log itself', 'log.alignbook.yaml', 'the `from` of the files forms a loop'],
])('refused: %s', (_, from, reason) => {
  expect(findings(from)).toEqual([`machine.from The machine cannot be read from \`${from}\`: ${reason}.`]);
});

test('without a repository the root is the file’s own folder', () => {
  const lone = folder();
  lone.file('swift.alignbook.yaml', MACHINE);
  const codes = (name: string, from: string) =>
    checkAnswer(typed('check', '--json', lone.file(name, `machine: swift\nfrom: ${from}\n`)).out).findings.map(
      ({ code }) => code,
    );
  expect(codes('log.alignbook.yaml', 'swift.alignbook.yaml')).toEqual([]);
  expect(codes('inner/log.alignbook.yaml', '../swift.alignbook.yaml')).toEqual(['machine.from']);
  lone.remove();
});

test('a workbook that is opened by a link is read at its real path', () => {
  const file = root.file('logs/real.alignbook.yaml', 'machine: swift\nfrom: ../machines/swift.alignbook.yaml\n');
  const link = join(outside.path, 'link-to-log.alignbook.yaml');
  symlinkSync(file, link);
  expect(checkAnswer(typed('check', '--json', link).out).findings).toEqual([]);
});
