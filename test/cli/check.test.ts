/** The gate: what `check` prints for other programs, and when it fails. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { CENTRED, LIMITS, MACHINE } from '../support/log.ts';
import { after } from '../support/workbook.ts';
import { folder, typed } from './terminal.ts';

const place = folder();
afterAll(() => place.remove());

const OUTSIDE = after('session: a\n', 'marks: M1\nshots: 5 right 5 up\n', 'release: in service\nby: mo\n');
const MISTAKEN = after('marks: M1\nshot: centre\n');

test('--github: a command a line, escaped, with its place', () => {
  const file = place.file('a,b/mistaken.alignbook.yaml', MISTAKEN);
  const { exit, out } = typed('check', '--github', file);
  expect(exit).toBe(1);
  const line = MISTAKEN.split('\n').indexOf('shot: centre') + 1;
  expect(out).toContain(
    `::error file=${file.replaceAll(',', '%2C')},line=${line},endLine=${line},col=1,endColumn=5,title=cell.key::\`shot\` is not a key`,
  );
  expect(
    out
      .trimEnd()
      .split('\n')
      .every((one) => /^::(error|warning|notice) file=[^\n]*::\S/.test(one)),
  ).toBe(true);
});

test('--sarif: one document for all files, with the rules of its results', () => {
  const files = [place.file('mistaken.alignbook.yaml', MISTAKEN), place.file('outside.alignbook.yaml', OUTSIDE)];
  const { exit, out } = typed('check', '--sarif', ...files);
  expect(exit).toBe(1);
  const { version, runs } = JSON.parse(out) as {
    version: string;
    runs: {
      tool: { driver: { rules: { id: string }[] } };
      results: { ruleId: string; ruleIndex: number; level: string }[];
    }[];
  };
  expect([version, runs.length]).toEqual(['2.1.0', 1]);
  const [{ tool, results }] = runs as [(typeof runs)[0]];
  expect(results.every(({ ruleId, ruleIndex }) => tool.driver.rules[ruleIndex]!.id === ruleId)).toBe(true);
  expect(results.map(({ ruleId, level }) => `${level} ${ruleId}`)).toContain('error cell.key');
});

test('--fail-on: warnings, or a release that is not within', () => {
  const outside = place.file('out.alignbook.yaml', OUTSIDE);
  const open = place.file('open.alignbook.yaml', after(CENTRED.M1));
  expect(typed('check', outside).exit).toBe(0);
  expect(typed('check', '--fail-on', 'released-outside', outside).exit).toBe(1);
  expect(typed('check', '--fail-on', 'released-outside', open).exit).toBe(0);
  expect(typed('check', '--fail-on', 'warnings', outside).exit).toBe(1);
  expect(typed('check', '--fail-on', 'anything', outside)).toMatchObject({ exit: 2, out: '' });
});

test('--stdin-name: where standard input stands', () => {
  expect(typed('check', '--stdin-name', 'x.alignbook.yaml', 'y').exit).toBe(2);
});

test('--changed-since: what git holds unchanged is left out, and what borrows from a changed file is not', () => {
  const root = join(place.path, 'repository');
  mkdirSync(root);
  const git = (...words: string[]) =>
    execFileSync('git', ['-C', root, '-c', 'user.name=t', '-c', 'user.email=t@example.org', ...words]);
  const file = (name: string, text: string) => {
    writeFileSync(join(root, name), text);
    return join(root, name);
  };
  git('init', '-q');
  const shared = file('wren.alignbook.yaml', MACHINE);
  const borrower = file(
    'b.alignbook.yaml',
    `machine: wren\nfrom: wren.alignbook.yaml\n---\n${LIMITS}---\nmarks: M1\nshot: centre\n`,
  );
  const same = file('c.alignbook.yaml', MISTAKEN);
  git('add', '.');
  git('commit', '-qm', 'all');
  const since = () => typed('check', '--json', '--changed-since', 'HEAD', root).out.split('\n').filter(Boolean);
  const names = () => since().map((line) => (JSON.parse(line) as { file: string }).file);
  expect(names()).toEqual([]);
  file('wren.alignbook.yaml', MACHINE.replace('leg: 90 mm', 'leg: 91 mm'));
  expect(names()).toEqual([borrower, shared]);
  const added = file('d.alignbook.yaml', MACHINE);
  expect(names()).toEqual([borrower, added, shared]);
  file('c.alignbook.yaml', MISTAKEN.replaceAll('\n', '\r\n'));
  expect(names()).not.toContain(same);
  expect(typed('check', '--changed-since', 'gone', root)).toMatchObject({
    exit: 2,
    error: expect.stringContaining('no revision `gone`'),
  });
  expect(typed('check', '--changed-since', '--help', root).exit).not.toBe(1);
});
