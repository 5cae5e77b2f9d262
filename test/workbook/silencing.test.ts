/** Silencing and the order of findings; the comments themselves are in `cases/silencing.yaml`. */
import { expect, test } from 'vitest';
import type { Finding } from '../../src/model/index.ts';
import { visibleFindings, silencings } from '../../src/workbook/index.ts';
import { MACHINE, read } from './sample.ts';

const later = (cell: number, start: number): Finding => ({
  code: 'fire.tape',
  cell,
  span: { start, end: start + 1 },
  facts: {},
});

test('findings of later layers are silenced by the same comments', () => {
  const { workbook } = read('# alignbook: allow fire.tape: we know\nsession: a\n---\nsession: b\n');
  expect(visibleFindings(workbook, [later(0, 0)])).toEqual([]);
  expect(visibleFindings(workbook, [later(1, 4)]).map(({ code }) => code)).toEqual(['allow.unused', 'fire.tape']);
});

test('a finding about the end of the log may vanish as it grows: its comment is not reported as unused', () => {
  const { workbook } = read(
    '# alignbook: allow log.unexpected: the carriage was knocked\nsession: a\n---\nsession: b\n',
  );
  expect(visibleFindings(workbook, [])).toEqual([]);
});

test('a comment works on its own line and the next, and no further', () => {
  const text = 'session: a\nnote: b # alignbook: allow fire.tape: we know\nby: c\ndate: 2026-01-01\n';
  const { workbook } = read(text);
  const silent = ['session', 'note', 'by', 'date'].map(
    (key) => visibleFindings(workbook, [later(0, text.indexOf(`${key}:`))]).length === 0,
  );
  expect(silent).toEqual([false, true, true, false]);
});

test('lines count alike with CRLF, and a fix of an unused comment takes it out', () => {
  const text = 'session: a\r\n# alignbook: allow fire.tape: we know\r\nby: c\r\n';
  const { workbook } = read(text);
  expect(visibleFindings(workbook, [later(0, text.indexOf('by'))])).toEqual([]);
  const [{ fix }] = visibleFindings(workbook, []) as [Finding];
  expect(text.slice(fix!.span.start, fix!.span.end)).toBe('# alignbook: allow fire.tape: we know');
});

test('a code that the workshop turned off is off everywhere; errors stay', () => {
  const { workbook } = read(
    `${MACHINE}---\nlimits: x\nrules: {fire.tape: {off: shimmed}}\n---\nsession: a\nraeson: b\n`,
  );
  expect(visibleFindings(workbook, [later(0, 0)]).map(({ code }) => code)).toEqual(['cell.key']);
});

test('findings come in the order of the file', () => {
  const { workbook } = read('by: a\nsession: b\n---\nsession: c\nraeson: d\n');
  expect(visibleFindings(workbook, [later(0, 0), later(1, 0)]).map(({ code }) => code)).toEqual([
    'fire.tape',
    'cell.kindFirst',
    'fire.tape',
    'cell.key',
  ]);
});

test('in a conflict a comment of either side counts, once', () => {
  const side = 'raeson: x # alignbook: allow cell.key: old form\n';
  const { codes } = read(`session: a\n<<<<<<< mine\n${side}=======\n${side}>>>>>>> theirs\nby: c\n`);
  expect(codes).toEqual(['cells.conflict']);
});

test('silenced findings are listed with the reason: of the limits everywhere, of a comment at its place', () => {
  const text = `${MACHINE}---\nlimits: x\nrules: {fire.tape: {off: shimmed}, log.height: {off: known}}\n---\nsession: a\n---\nsession: b # alignbook: allow log.racking: the rail is old\n---\nnote: c # alignbook: allow log.racking: of no use\n`;
  const { workbook } = read(text);
  expect(silencings(workbook, [later(3, 0), later(2, 0), { ...later(3, 4), code: 'log.racking' }])).toMatchObject([
    { code: 'fire.tape', reason: 'shimmed', silenced: [{ cell: 2 }, { cell: 3 }] },
    { code: 'log.height', reason: 'known', silenced: [] },
    { code: 'log.racking', reason: 'the rail is old', at: { cell: 3 }, silenced: [{ code: 'log.racking', cell: 3 }] },
    { code: 'log.racking', reason: 'of no use', at: { cell: 4 }, silenced: [] },
  ]);
});

test('an error is not silenced by the limits, and not counted as if it were', () => {
  const { workbook } = read(
    `${MACHINE}---\nlimits: x\nrules: {fire.tape: {off: shimmed}}\n---\nsession: a\nraeson: b\n`,
  );
  expect(silencings(workbook, []).map(({ silenced }) => silenced)).toEqual([[]]);
});

test('a visit keeps the rules that were turned off at its end; a later limits cell turns off nothing in it, and turns nothing on', () => {
  const limits = (code: string) =>
    `limits: workshop\nstations:\n  M1: {centre: 3 mm}\nrules: {${code}: {off: agreed}}\n`;
  const visit = 'session: a\n---\nrelease: in service\nby: kt\n';
  const { workbook } = read(
    [MACHINE, limits('fire.tape'), visit, 'note: b\n', limits('log.bowed'), 'session: b\n'].join('---\n'),
  );
  const at = (code: Finding['code']) =>
    visibleFindings(
      workbook,
      workbook.split.cells.map((_, cell): Finding => ({ ...later(cell, 0), code })),
    ).map(({ cell }) => cell);
  expect(at('fire.tape')).toEqual([5, 6]);
  expect(at('log.bowed')).toEqual([0, 1, 2, 3, 4]);
  expect(
    silencings(workbook, [later(0, 0), later(4, 0)]).map(({ code, silenced }) => [
      code,
      silenced.map(({ cell }) => cell),
    ]),
  ).toEqual([
    ['fire.tape', [0, 4]],
    ['log.bowed', []],
  ]);
});
