/**
 * Another editor: headless Neovim, set up as shared/docs/editors.md says, attached to the server over standard input
 * and output.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { ROOT } from '../house/layers.ts';
import { installNeovim } from '../workbench/editor/install.ts';

const BOOK = `machine: heron
source: {fires: left}
path:
  M1: {leg: 90 mm, aperture: 20 mm, sends: front}
  M2: {rides: gantry, stops: {near: 130 mm, far: 690 mm}, aperture: 20 mm}
---
session: spring service
reeson: routine
---
marks: M2
shots: {near: 1.5 right 2.0 down, far: 6.0 right 5.5 down}
---
adjust: M1
turn: {A: in 1/4}
`;

interface Report {
  readonly findings: readonly { readonly line: number; readonly code: string; readonly message: string }[];
  readonly hover?: { readonly contents: { readonly value: string } };
  readonly completion?:
    | readonly { readonly label: string }[]
    | { readonly items: readonly { readonly label: string }[] };
}

const folder = mkdtempSync(join(tmpdir(), 'neovim-'));
let report: Report;

beforeAll(() => {
  installNeovim();
  report = reported();
}, 300_000);
afterAll(() => rmSync(folder, { recursive: true }));

test('findings', () => {
  expect(report.findings).toContainEqual({
    line: 7,
    code: 'cell.key',
    message: expect.stringContaining('`reeson`') as string,
  });
});

test('a hover explains a mark', () => {
  expect(report.hover!.contents.value).toContain('gantry far from M1 (front): 6.0 right (machine left) 5.5 down');
});

test('completion knows the machine’s parts', () => {
  const items = 'items' in report.completion! ? report.completion.items : report.completion!;
  expect(items.map(({ label }) => label)).toEqual(['tube', 'M1']);
});

function reported(): Report {
  const [file, setup, answer] = ['heron.alignbook.yaml', 'setup.lua', 'report.json'].map((name) =>
    join(folder, name),
  ) as [string, string, string];
  writeFileSync(file, BOOK);
  writeFileSync(
    setup,
    /```lua\n([^]*?)```/.exec(readFileSync(join(ROOT, 'shared', 'docs', 'editors.md'), 'utf8'))![1]!,
  );
  symlinkSync(join(ROOT, 'dist', 'alignbook.cjs'), join(folder, 'alignbook'));
  const env = {
    ...process.env,
    PATH: [folder, process.env['PATH']].join(delimiter),
    XDG_CONFIG_HOME: folder,
    XDG_DATA_HOME: folder,
    XDG_CACHE_HOME: folder,
    ALIGNBOOK_FILE: file,
    ALIGNBOOK_SETUP: setup,
    ALIGNBOOK_REPORT: answer,
  };
  const { stderr } = spawnSync('nvim', ['--headless', '--clean', '-S', join(import.meta.dirname, 'report.lua')], {
    cwd: folder,
    env,
    encoding: 'utf8',
    timeout: 60_000,
  });
  if (!existsSync(answer)) throw new Error(`Neovim reported nothing: ${stderr}`);
  return JSON.parse(readFileSync(answer, 'utf8')) as Report;
}
