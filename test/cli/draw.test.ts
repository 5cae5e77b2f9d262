/** Pictures by command. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { FIGURES } from '../../src/cli/arguments.ts';
import { USAGE } from '../../src/cli/usage.ts';
import { installBrowser } from '../workbench/editor/install.ts';
import { folder, typed } from './terminal.ts';

const place = folder();
afterAll(() => place.remove());
const EXAMPLE = 'examples/1-full-service.alignbook.yaml';
const out = (name: string) => join(place.path, name);

test('onto standard output, as SVG', () => {
  const { exit, out: svg } = typed('draw', EXAMPLE, '--station', 'M2');
  expect(exit).toBe(0);
  expect(svg).toMatch(/^<svg [^]*Tape on M2[^]*M2, round 2 of 2[^]*<\/svg>\n$/);
});

test('into a file: an earlier round, from behind, dark', () => {
  const file = out('t.svg');
  expect(
    typed('draw', EXAMPLE, '--station', 'M3', '--round', '1', '--behind', '--theme', 'dark', '--out', file),
  ).toMatchObject({ exit: 0, out: '', error: '' });
  expect(readFileSync(file, 'utf8')).toMatch(/--paper:#1f1f1f[^]*M3, round 1 of 3[^]*seen from behind/);
});

test('the screws of a mirror', () => {
  const { exit, out: svg } = typed('draw', EXAMPLE, '--screws', 'M1', '--theme', 'contrast');
  expect(exit).toBe(0);
  expect(svg).toMatch(/^<svg [^]*Screws of M1, facing its screws[^]*<\/svg>\n$/);
});

test.each([
  [['--rounds', 'M3'], 'Rounds on M3'],
  [['--path'], 'Beam path of dory'],
] as const)('%j', (words, title) => {
  const { exit, out: svg } = typed('draw', EXAMPLE, ...words);
  expect(exit).toBe(0);
  expect(svg).toMatch(new RegExp(`^<svg [^]*<title>${title}</title>[^]*</svg>\n$`));
});

test.each(Object.keys(FIGURES))('--%s is named in the help, in the refusal and in README.md', (option) => {
  const named = new RegExp(`--${option}\\b`);
  expect(USAGE).toMatch(named);
  expect(typed('draw', EXAMPLE).error).toMatch(named);
  expect(readFileSync('README.md', 'utf8')).toMatch(named);
});

test('as PNG, twice as fine as its size on paper', () => {
  process.env['CHROMIUM'] = installBrowser();
  const file = out('t.png');
  expect(typed('draw', EXAMPLE, '--station', 'lens', '--out', file)).toMatchObject({ exit: 0, error: '' });
  const bytes = readFileSync(file);
  expect(bytes.subarray(1, 4).toString()).toBe('PNG');
  expect(bytes.readUInt32BE(16)).toBe(760);
}, 300_000);

test.each([
  [['draw'], '`draw` needs one workbook'],
  [['draw', EXAMPLE], '`draw` needs one of `--station`'],
  [['draw', EXAMPLE, '--station', 'M9'], 'There is no station `M9`: M1, M2, M3, lens.'],
  [['draw', EXAMPLE, '--station', 'M2', '--round', '9'], 'M2 has 2 rounds in this session.'],
  [['draw', EXAMPLE, '--screws', 'lens'], 'There is no mirror with screws `lens`'],
  [['draw', EXAMPLE, '--screws', 'M1', '--behind'], 'need `--station`'],
  [['draw', EXAMPLE, '--station', 'M2', '--screws', 'M1'], '`draw` needs one of `--station`'],
  [['draw', EXAMPLE, '--rounds', 'M9'], 'There is no station `M9`: M1, M2, M3, lens.'],
  [['draw', EXAMPLE, '--path', '--round', '2'], 'need `--station`'],
  [['draw', EXAMPLE, '--station', 'M2', '--round', 'x'], '`x` is not a round'],
  [['draw', EXAMPLE, '--station', 'M2', '--theme', 'pink'], 'There is no theme `pink`'],
  [['draw', EXAMPLE, '--station', 'M2', '--out', EXAMPLE], 'is not a .svg or .png file'],
  [
    ['draw', EXAMPLE, '--station', 'M2', '--out', '/no/such/folder/t.svg'],
    'cannot be written: its folder does not exist.',
  ],
  [['draw', EXAMPLE, '--station', 'M2', '--json'], '`draw` takes no `--json`'],
  [['next', EXAMPLE, '--station', 'M2'], '`next` takes no `--station`'],
  [['draw', 'no.alignbook.yaml', '--station', 'M2'], 'there is no such file'],
] as const)('%j is refused', (words, reason) => {
  const { exit, out: printed, error } = typed(...words);
  expect({ exit, printed }).toEqual({ exit: 2, printed: '' });
  expect(error).toContain(reason);
});
