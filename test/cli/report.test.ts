/** The record as it is printed and kept. */
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { installBrowser } from '../workbench/editor/install.ts';
import { LIMITS, MACHINE } from '../alignment/log.ts';
import { folder, typed } from './terminal.ts';

const place = folder();
afterAll(() => place.remove());
const EXAMPLE = 'examples/1-full-service.alignbook.yaml';
const out = (name: string) => join(place.path, name);

test('a page that needs nothing else: as found, what was done, as left, who', () => {
  const { exit, out: page } = typed('report', EXAMPLE);
  expect(exit).toBe(0);
  const missing = ['Record of alignment', 'dory: 80 W engraver', 'spring service', '2026-03-07', '3.9 ± 0.2 mm (gantry far), limit 2.5 mm; within: under 1 %', 'Tape on M2, seen along the beam', 'A out 1/4, B in 1/8', 'flat side down, ring snug', '17.7 ± 3.8 % more than before', 'interlock tried', 'Released into service, 2026-03-07 13:40 by jv', 'the tape was wider than the hole', 'toxic if it breaks', 'who did it (jv)', 'system-ui,"DejaVu Sans"'].filter((part) => !page.includes(part));
  expect(missing).toEqual([]);
  expect(page).toContain(createHash('sha256').update(readFileSync(EXAMPLE)).digest('hex'));
  expect(/<script|https?:\/\/(?!www\.w3\.org\/2000\/svg)|src=|url\(|undefined|NaN|\[object/.exec(page)?.[0]).toBeUndefined();
});

test('as found is the first round, however many there were', () => {
  const file = out('long.alignbook.yaml');
  const rounds = Array.from({ length: 30 }, (_, k) => [`marks: M2\nshots: {near: ${30 - k} right 0 up, far: ${30 - k} right 0 up}\n`, 'adjust: M1\nturn: {A: in 1/16}\n']).flat();
  writeFileSync(file, [MACHINE, LIMITS, 'session: long\n', ...rounds].join('---\n'));
  const { out: page } = typed('report', file);
  const texts = [...page.matchAll(/<desc>(Tape on M2[^<]*)/g)].map(([, text]) => text);
  expect(texts).toEqual([expect.stringContaining('Round 1 of 30. gantry near: 30 right'), expect.stringContaining('Round 30 of 30. gantry near: 1 right')]);
  expect(page).toContain('30.0 ± 0.2 mm (gantry');
});

test('as Markdown, with nothing in it that a name could turn into formatting', () => {
  const text = [MACHINE.replace('machine: wren', 'machine: wren\ntitle: "a | b *c* <b>d</b> `e`"'), LIMITS, 'session: "s_1 # [x](y)"\n', 'marks: M1\nshots: centre\n', 'note: |\n  - one\n  | two |\n'].join('---\n');
  const file = out('odd.alignbook.yaml');
  writeFileSync(file, text);
  const { exit, out: markdown } = typed('report', file, '--markdown');
  expect(exit).toBe(0);
  expect(markdown).toContain('wren: a \\| b \\*c\\* \\<b\\>d\\</b\\> \\`e\\`');
  expect(markdown).toContain('- \\- one \\| two \\|');
  expect(typed('report', file).out).toContain('a | b *c* &lt;b>d&lt;/b> `e`');
});

test('which commit it is of, and whether the file differs from it', () => {
  const folder = out('kept');
  mkdirSync(folder);
  const file = join(folder, 'a.alignbook.yaml');
  const git = (...words: string[]) => execFileSync('git', ['-C', folder, '-c', 'user.name=t', '-c', 'user.email=t@example.invalid', ...words], { encoding: 'utf8' }).trim();
  git('init', '-q');
  const revision = () => /revision \| ([^|]*) \|/.exec(typed('report', file, '--markdown').out)?.[1];
  writeFileSync(file, '\ufeffmachine: a\n');
  expect(revision()).toBeUndefined();
  git('add', '.');
  git('commit', '-qm', 'one');
  writeFileSync(file, readFileSync(EXAMPLE));
  expect(revision()).toBe(`${git('rev-parse', 'HEAD')}, with changes that are not in it`);
  git('commit', '-qam', 'two');
  expect(revision()).toBe(git('rev-parse', 'HEAD'));
  writeFileSync(file, readFileSync(EXAMPLE, 'utf8').replaceAll('\n', '\r\n'));
  expect(revision()).toBe(git('rev-parse', 'HEAD'));
});

test('as PDF', () => {
  process.env['CHROMIUM'] = installBrowser();
  const file = out('r.pdf');
  expect(typed('report', EXAMPLE, '--pdf', '--out', file)).toMatchObject({ exit: 0, out: '', error: '' });
  expect(readFileSync(file, 'latin1').slice(0, 5)).toBe('%PDF-');
}, 300_000);

test.each([
  [['report'], '`report` needs one workbook'],
  [['report', EXAMPLE, EXAMPLE], '`report` needs one workbook'],
  [['report', EXAMPLE, '--pdf'], '`--pdf` needs `--out`'],
  [['report', EXAMPLE, '--pdf', '--markdown'], 'exclude each other'],
  [['report', EXAMPLE, '--out', EXAMPLE], 'is the name of a workbook'],
  [['report', EXAMPLE, '--theme', 'dark'], '`report` takes no `--theme`'],
  [['report', EXAMPLE, '--json'], '`report` takes no `--json`'],
  [['report', 'no.alignbook.yaml'], 'there is no such file'],
  [['report', EXAMPLE, '--out', '/no/such/folder/r.html'], 'cannot be written (ENOENT)'],
] as const)('%j is refused', (words, reason) => {
  const { exit, out: printed, error } = typed(...words);
  expect({ exit, printed }).toEqual({ exit: 2, printed: '' });
  expect(error).toContain(reason);
});
