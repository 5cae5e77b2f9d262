/** A mount that the marks contradict is written as they have it, and then nothing contradicts it. */
import { describe, expect, test } from 'vitest';
import { fixesAt } from '../../src/language/index.ts';
import { mountFixes } from '../../src/language/fixes/mount-fixes.ts';
import type { Finding } from '../../src/model/index.ts';
import { MACHINE } from '../support/log.ts';
import { after, bookOf } from '../support/workbook.ts';

const PLACES = /^ {6}[ABC]: .*$/gm;
const finding = (key: string, fix = ''): Finding => ({
  code: 'mount.contradicted',
  cell: 0,
  span: { start: 0, end: 1 },
  facts: { mount: 'corner', what: '', key, fix },
});

function written(key: string, fix = '', machine = MACHINE): { title: string; text: string } | undefined {
  const text = `${machine}---\nmarks: M1\nshots: centre\n`;
  const [result] = mountFixes(bookOf(text), finding(key, fix));
  return (
    result && {
      title: result.title,
      text: result.changes
        .toSorted((one, other) => other.start - one.start)
        .reduce((now, { start, end, text: put }) => now.slice(0, start) + put + now.slice(end), text),
    }
  );
}

const placesIn = (text: string) => text.match(PLACES)!.map((line) => line.trim());

describe('the mount is written', () => {
  test('with `in` the other way', () => {
    const fixed = written('in', '`in: away from beam`')!;
    expect(fixed.title).toBe('Write `in: away from beam`');
    expect(fixed.text).toContain('    in: away from beam\n');
    expect(fixed.text.replace('away from beam', 'toward beam')).toContain(MACHINE);
  });

  test('with left and right of every place exchanged, uncertainties and expressions kept', () => {
    expect(placesIn(written('mirrored')!.text)).toEqual([
      'A: {right: 22 mm, up: 22 mm}',
      'B: {right: -22 mm, up: -22 mm}',
      'C: {right: 22 mm, up: -22 mm}',
    ]);
    const doubtful = MACHINE.replace('B: {right: 22 mm,', 'B: {right: 22 mm ± 1 mm,').replace(
      'A: {right: -22 mm,',
      'A: {right: -20 mm - 2 mm,',
    );
    expect(placesIn(written('mirrored', '', doubtful)!.text).slice(0, 2)).toEqual([
      'A: {right: -(-20 mm - 2 mm), up: 22 mm}',
      'B: {right: -22 mm ± 1 mm, up: -22 mm}',
    ]);
  });

  test('with two names exchanged', () => {
    const fixed = written('A and B')!;
    expect(fixed.title).toBe('Swap the places of A and B');
    expect(placesIn(fixed.text)).toEqual([
      'B: {right: -22 mm, up: 22 mm}',
      'A: {right: 22 mm, up: -22 mm}',
      'C: {right: -22 mm, up: -22 mm}',
    ]);
  });

  test('with another pitch, in place of the thread or of the pitch that is there', () => {
    expect(written('pitch × 2', '`pitch: 1.4 mm`')!.text).toContain('    pitch: 1.4 mm\n    in: toward');
    expect(written('pitch × 0.5', '`pitch: 0.5 mm`', MACHINE.replace('thread: M4', 'pitch: 1 mm'))!.text).toContain(
      '    pitch: 0.5 mm\n',
    );
  });

  test('no fix where the thread contains more than the pitch, nor in a file without mounts', () => {
    expect(written('pitch × 2', '`pitch: 1.4 mm`', MACHINE.replace('thread: M4', 'thread: M4 LH'))).toBeUndefined();
    const text = 'machine: wren\nfrom: wren.alignbook.yaml\n---\nmarks: M1\nshots: centre\n';
    expect(mountFixes(bookOf(text, { 'wren.alignbook.yaml': MACHINE }), finding('in', '`in: away from beam`'))).toEqual(
      [],
    );
  });
});

/** B turned in moves the far mark the other way than the machine cell says, twice. */
test('and the marks then agree with the machine cell', () => {
  const m2 = (near: string, far: string) => `marks: M2\nshots: {near: ${near}, far: ${far}}\n`;
  const turn = (of: string) => `adjust: M1\nturn: {${of}}\n`;
  const text = after(
    'marks: M1\nshots: centre\n',
    m2('0.9 right 0 up', '5.6 right 0 up'),
    turn('B: in 1/8'),
    m2('1.4 right 0 up', '8.4 right 0 up'),
    m2('1.4 right 0 up', '8.4 right 0 up'),
    turn('B: out 1/8'),
    m2('0.9 right 0 up', '5.6 right 0 up'),
  );
  const contradicted = (of: string) =>
    bookOf(of)
      .findings()
      .filter(({ code }) => code === 'mount.contradicted');
  expect(contradicted(text)).toHaveLength(1);
  const fix = fixesAt(bookOf(text), 0, text.length).find(
    (one) => one.finding?.code === 'mount.contradicted' && one.isPreferred,
  )!;
  const mended = fix.changes
    .toSorted((one, other) => other.start - one.start)
    .reduce((now, { start, end, text: put }) => now.slice(0, start) + put + now.slice(end), text);
  expect(contradicted(mended)).toEqual([]);
});
