/** Names: every place where one stands for the same thing, and no other. */
import { describe, expect, test } from 'vitest';
import { cellAt, nameAt, namesIn, refiling, refusal, renaming, usesOf } from '../../src/language/index.ts';
import { after, bookOf } from '../support/workbook.ts';

const LOG = after(
  'marks: M2\nshots: {near: 1 right 1 up, far: centre}\n',
  'marks: lens\nshots:\n  - {at: here, with: {M2: far, M3: near}, mark: centre}\n',
  'adjust: M2\nturn: {A: in 1/4}\n',
  'care: M2\ndid: inspected\n',
  'work: tilt of M2\nM2x: M2.far - M2.near + corner.A.right\n',
);

/** The text after a rename of what stands at the first place where `at` is found. */
function renamed(text: string, at: string, to: string): string {
  const book = bookOf(text);
  const offset = text.indexOf(at);
  const name = nameAt(book, cellAt(book, offset), offset)!;
  expect(name, at).toBeDefined();
  return renaming(book, name, to)
    .toSorted((one, other) => other.start - one.start)
    .reduce((now, { start, end, text: put }) => now.slice(0, start) + put + now.slice(end), text);
}

describe('a rename', () => {
  test('of a station reaches marks, limits, carriages, adjustments, care and arithmetic', () => {
    const text = renamed(LOG, 'M2:', 'bridge');
    expect(text.match(/\bM2\b/g)).toEqual(['M2']);
    expect(text).toContain('work: tilt of M2');
    expect(text).toContain('M2x: bridge.far - bridge.near + corner.A.right');
    expect(bookOf(text).findings()).toEqual(
      bookOf(LOG)
        .findings()
        .map((finding) => expect.objectContaining({ code: finding.code })),
    );
  });

  test('of a stop leaves the same word of another station alone', () => {
    const text = renamed(LOG, 'near: 130', 'front');
    expect(text).toContain('stops: {front: 130 mm, far: 690 mm}');
    expect(text).toContain('stops: {near: 70 mm, far: 910 mm}');
    expect(text).toContain('shots: {front: 1 right 1 up');
    expect(text).toContain('with: {M2: far, M3: near}');
    expect(text).toContain('M2.far - M2.front');
  });

  test('of a screw reaches the turns of every mirror on its mount', () => {
    const text = renamed(LOG, 'A: {right', 'top');
    expect(text).toContain('turn: {top: in 1/4}');
    expect(text).toContain('corner.top.right');
  });

  test('of a mount reaches the mirrors that it holds', () =>
    expect(renamed(LOG, 'corner:', 'block').match(/mount: block/g)).toHaveLength(3));

  test('from a use is the same as from the definition', () =>
    expect(renamed(LOG, 'M2\nturn', 'bridge')).toBe(renamed(LOG, 'M2:', 'bridge')));
});

test('a name that is taken, or none, is refused', () => {
  const book = bookOf(LOG);
  const name = nameAt(book, 0, LOG.indexOf('M2:'))!;
  expect(refusal('M3', name, [book])).toBe('The name `M3` is already used for a station.');
  expect(refusal('2nd', name, [book])).toContain('is not a valid name');
  expect(refusal('tube', name, [book])).toContain('is reserved');
  expect(refusal('bridge', name, [book])).toBeUndefined();
});

test('a machine of another file: what is used here is defined there', () => {
  const borrower =
    'machine: wren\nfrom: machines/wren.alignbook.yaml\n---\nmarks: M2\nshots: {near: centre, far: centre}\n';
  const book = bookOf(borrower, { 'machines/wren.alignbook.yaml': LOG });
  const offset = borrower.indexOf('M2');
  const name = nameAt(book, cellAt(book, offset), offset)!;
  expect(usesOf(book, name)).toHaveLength(1);
  expect(usesOf(bookOf(LOG), name).filter(({ isDefinition }) => isDefinition)).toHaveLength(1);
  const refiled = (moves: Readonly<Record<string, string>>) =>
    refiling(book, (file) => moves[file] ?? file).map(({ text }) => text);
  expect(refiled({ 'machines/wren.alignbook.yaml': 'shared/wren.alignbook.yaml' })).toEqual([
    'shared/wren.alignbook.yaml',
  ]);
  expect(refiled({ 'test.alignbook.yaml': 'logs/test.alignbook.yaml' })).toEqual(['../machines/wren.alignbook.yaml']);
  expect(
    refiled({
      'test.alignbook.yaml': 'machines/test.alignbook.yaml',
      'machines/wren.alignbook.yaml': 'machines/robin.alignbook.yaml',
    }),
  ).toEqual(['robin.alignbook.yaml']);
  expect(refiled({ 'test.alignbook.yaml': 'other.alignbook.yaml' })).toEqual([]);
});

test('every name that is written is found, with its role', () => {
  const roles = namesIn(bookOf(LOG)).map(({ role }) => role);
  const count = (role: string) => roles.filter((one) => one === role).length;
  expect({
    machine: count('machine'),
    station: count('station'),
    mount: count('mount'),
    screw: count('screw'),
    stop: count('stop'),
  }).toEqual({ machine: 1, station: 16, mount: 5, screw: 5, stop: 11 });
});
