/** The reader's memory, units, machines from other files, and texts meant to hurt. */
import { describe, expect, test } from 'vitest';
import { createReader, expressions } from '../../src/workbook/index.ts';
import { createCache } from '../../src/workbook/cache.ts';
import { GOOD, MACHINE, read } from './sample.ts';
import { threads } from './threads.ts';

const alone = { file: 'a.alignbook.yaml', files: new Map() };

describe('memory', () => {
  test('equal cells under the same machine give the same entries', () => {
    const reader = createReader({ threads, expressions });
    const [first, second] = [reader.read(GOOD, alone), reader.read(GOOD.replace('in 1/4', 'in 1/2'), alone)];
    const same = first.entries.map(({ entry }, i) => entry === second.entries[i]?.entry);
    expect(same).toEqual([true, true, true, true, false, true, true, true]);
  });

  test('another machine gives every cell that needs it another meaning', () => {
    const reader = createReader({ threads, expressions });
    reader.read(GOOD, alone);
    const { entries } = reader.read(GOOD.replace('near: 150 mm', 'near: 160 mm'), alone);
    expect(entries[3]?.entry).toMatchObject({ shots: [{ carriages: { M2: 160 } }, {}] });
  });

  test('the cache drops entries that were not used', () => {
    const cache = createCache<number>(2, 1000);
    ['a', 'b', 'c', 'd'].forEach((key, i) => cache.set(key, i));
    expect(cache.get('a')).toBe(0);
    ['e', 'f'].forEach((key, i) => cache.set(key, i));
    expect([cache.get('a'), cache.get('b'), cache.get('d')]).toEqual([0, undefined, undefined]);
  });
});

describe('units', () => {
  const inches = MACHINE.replace('title:', 'units: in\ntitle:');
  const marks = (text: string) => read(text).entries.at(-1);

  test('a bare length is in the machine’s units, and 1 in is 25.4 mm', () => {
    const entry = marks(`${inches}---\nmarks: M2\nshots: {near: 0.1 right}`);
    expect(entry).toMatchObject({ shots: [{ marks: [{ right: expect.closeTo(2.54, 12) }] }] });
  });

  test('the machine’s own cell is in its own units', () => {
    const [entry] = read(inches).entries;
    expect(entry).toMatchObject({
      machine: { units: 'in', mounts: { corner: { screws: { A: { right: { value: -508 } } } } } },
    });
  });

  test('a later machine cell changes the units from there on', () => {
    const { entries } = read(`${MACHINE}---\nmarks: M1\nshots: 1 up\n---\n${inches}---\nmarks: M1\nshots: 1 up`);
    expect(entries.filter(({ kind }) => kind === 'marks')).toMatchObject([
      { shots: [{ marks: [{ up: 1 }] }] },
      { shots: [{ marks: [{ up: 25.4 }] }] },
    ]);
  });
});

describe('a machine from another file', () => {
  const user = (from: string) => `machine: lark\nfrom: ${from}\n---\nmarks: M2\nshots: {near: 1 up}`;
  const machines = {
    'shop/machines/lark.alignbook.yaml': { text: `${MACHINE}---\n${MACHINE.replace('near: 150', 'near: 151')}` },
  };

  test('the last cell of that name is taken, relative to the file', () => {
    const { codes, entries } = read(user('machines/lark.alignbook.yaml'), machines, 'shop/log.alignbook.yaml');
    expect(codes).toEqual([]);
    expect(entries[1]).toMatchObject({ kind: 'marks', shots: [{ carriages: { M2: 151 } }] });
  });

  test('a missing file is listed, without a finding yet', () => {
    const { workbook, codes } = read(user('../lark.alignbook.yaml'), {}, 'shop/log.alignbook.yaml');
    expect(workbook.lacks).toEqual(['lark.alignbook.yaml']);
    expect(codes).toEqual([]);
  });

  test('keys of this machine alone are allowed beside `from`; its care replaces the shared one part by part', () => {
    const shared = MACHINE.replace(
      'title:',
      'asset: {number: A-1}\npractice: {seed: 7}\ncare: {M1: every 6 months, M2: every 40 h}\ntitle:',
    );
    const own = 'title: the left one\nasset: {serial: S-2}\ncare: {M2: every 2 weeks}\nfrom:';
    const files = { 'm.alignbook.yaml': { text: shared } };
    const { entries, codes } = read(user('m.alignbook.yaml').replace('from:', own), files);
    expect(codes).toEqual([]);
    expect(entries[0]).toMatchObject({
      machine: {
        title: 'the left one',
        asset: { serial: 'S-2' },
        practice: { seed: 7 },
        care: { M1: { months: 6 }, M2: { days: 14 } },
      },
    });
    const [bare] = read(user('m.alignbook.yaml'), files).entries;
    expect(bare).toMatchObject({ machine: { title: '60 W engraver' } });
    expect(bare).not.toHaveProperty('machine.asset');
  });

  test('a photo may lie beside the folder of its workbook, and not outside of the root', () => {
    const text = 'note: a\nphoto: ../photos/a.jpg\n';
    expect(read(text, {}, 'shop/log.alignbook.yaml').codes).toEqual([]);
    expect(read(text, {}, 'log.alignbook.yaml').codes).toEqual(['photo.unusable']);
  });

  test('its own units hold', () => {
    const files = { 'm.alignbook.yaml': { text: MACHINE.replace('title:', 'units: in\ntitle:') } };
    expect(read(user('m.alignbook.yaml'), files).entries[1]).toMatchObject({ shots: [{ marks: [{ up: 25.4 }] }] });
  });

  test('units beside `from` hold for what this file writes, and leave the shared lengths as they are', () => {
    const files = { 'm.alignbook.yaml': { text: MACHINE.replace('title:', 'units: in\ntitle:') } };
    const { entries, codes } = read(user('m.alignbook.yaml').replace('from:', 'units: mm\nfrom:'), files);
    expect(codes).toEqual([]);
    expect(entries[0]).toMatchObject({
      machine: { units: 'mm', mounts: { corner: { screws: { A: { right: { value: -508 } } } } } },
    });
    expect(entries[1]).toMatchObject({ shots: [{ marks: [{ up: 1 }] }] });
  });

  test.each([
    ['../../x.alignbook.yaml', {}, /outside/],
    ['/etc/passwd', {}, /outside/],
    ['C:\\x.alignbook.yaml', {}, /outside/],
    ['x.alignbook.yaml', { 'shop/x.alignbook.yaml': { reason: 'there is no such file' } }, /no such file/],
    ['x.alignbook.yaml', { 'shop/x.alignbook.yaml': { text: 'machine: other\n' } }, /no machine cell named lark/],
    ['x.alignbook.yaml', { 'shop/x.alignbook.yaml': { text: 'machine: lark\n' } }, /has errors/],
    ['log.alignbook.yaml', { 'shop/log.alignbook.yaml': { text: user('log.alignbook.yaml') } }, /forms a loop/],
    [
      'x.alignbook.yaml',
      {
        'shop/x.alignbook.yaml': { text: user('y.alignbook.yaml') },
        'shop/y.alignbook.yaml': { text: user('x.alignbook.yaml') },
      },
      /forms a loop/,
    ],
    ['x.alignbook.yaml', { 'shop/x.alignbook.yaml': { text: user('../../y.alignbook.yaml') } }, /outside/],
  ])('%s %j', (from, files, reason) => {
    const { findings, entries } = read(user(from), files, 'shop/log.alignbook.yaml');
    expect(findings).toMatchObject([{ code: 'machine.from', facts: { reason: expect.stringMatching(reason) } }]);
    expect(entries[1]).toMatchObject({ kind: 'unread', of: 'marks' });
  });

  test('through a third file, and the entry stays the same while nothing changes', () => {
    const files = { 'x.alignbook.yaml': { text: user('y.alignbook.yaml') }, 'y.alignbook.yaml': { text: MACHINE } };
    const reader = createReader({ threads, expressions });
    const context = { file: 'log.alignbook.yaml', files: new Map(Object.entries(files)) };
    const [a, b] = [reader.read(user('x.alignbook.yaml'), context), reader.read(user('x.alignbook.yaml'), context)];
    expect(a.entries[0]?.entry).toMatchObject({ kind: 'machine', machine: { name: 'lark' } });
    expect(a.entries[0]?.entry).toBe(b.entries[0]?.entry);
  });
});

describe('texts meant to hurt', () => {
  test('names that objects have anyway are names like any other', () => {
    const { codes, entries } = read(
      MACHINE.replace('  M2:', '  constructor:').replaceAll('near', 'toString').replaceAll('learnt', 'valueOf'),
    );
    expect(codes).toEqual([]);
    expect(entries[0]).toMatchObject({ machine: { path: [{}, { name: 'constructor', mount: 'valueOf' }, {}, {}] } });
    expect(read(`${MACHINE}---\nadjust: constructor\nlock: tight`).codes).toEqual(['name.unknown']);
    expect(read(`${MACHINE}---\nmarks: M2\nshots: {toString: centre}`).codes).toEqual(['name.unknown']);
  });
});
