/** Fixes by what becomes of the text. Copy a line to add a case. */
import { describe, expect, test } from 'vitest';
import { addStep, fixAll, fixesAt } from '../../src/language/index.ts';
import { CENTRED, MACHINE } from '../support/log.ts';
import { after, bookOf, changed } from '../support/workbook.ts';

const CASES: readonly (readonly [title: string, before: string, result: string])[] = [
  ['Write `M1`', 'adjust: M1x\nlock: tight\n', 'adjust: M1\nlock: tight\n'],
  [
    'Write `near`',
    'marks: M2\nshots: {naer: centre, far: centre}\n',
    'marks: M2\nshots: {near: centre, far: centre}\n',
  ],
  ['Write `1.5`', 'marks: M1\nshots: 1,5 right 2 down\n', 'marks: M1\nshots: 1.5 right 2 down\n'],
  [
    'Swap near and far',
    'marks: M2\nshots: {near: 13 right 2 down, far: 1 right 1 down}\n',
    'marks: M2\nshots: {far: 13 right 2 down, near: 1 right 1 down}\n',
  ],
  ['Write `1.5 right 2 down`', 'marks: M1\nshots: 15 right 2 down\n', 'marks: M1\nshots: 1.5 right 2 down\n'],
  [
    'Write `2.5 mm up`',
    `${CENTRED.M1}---\nadjust: tube\nshift: 25 mm up\n`,
    `${CENTRED.M1}---\nadjust: tube\nshift: 2.5 mm up\n`,
  ],
  ['Write the unit: W', 'power: lens\nreading: 70\n', 'power: lens\nreading: 70 W\n'],
  ['Quote it: "no"', 'session: no\n', 'session: "no"\n'],
  ['Move the kind to the top', 'date: 2026-03-14\nsession: spring\n', 'session: spring\ndate: 2026-03-14\n'],
  [
    'Intended: allow mark.outside here',
    'marks: M1\nshots: 13 right 2 down\n',
    'marks: M1\n# alignbook: allow mark.outside: the reason\nshots: 13 right 2 down\n',
  ],
  [
    'Keep both, in order of time',
    '<<<<<<< ours\nsession: late\ndate: 2026-03-15\n=======\nsession: early\ndate: 2026-03-14\n>>>>>>> theirs\n',
    'session: early\ndate: 2026-03-14\n---\nsession: late\ndate: 2026-03-15\n',
  ],
  [
    'Keep this side (ours)',
    '<<<<<<< ours\nsession: late\n=======\nsession: early\n>>>>>>> theirs\n',
    'session: late\n',
  ],
  [
    'Keep the other side (theirs)',
    '<<<<<<< ours\nsession: late\n||||||| base\nsession: old\n=======\nsession: early\n>>>>>>> theirs\n',
    'session: early\n',
  ],
  ['Delete this `---` line', 'session: a\n---\n---\nsession: b\n', 'session: a\n---\nsession: b\n'],
  ['Delete it: it silences nothing', '# alignbook: allow mark.outside: wide tape\nsession: a\n', '\nsession: a\n'],
];

test.each(CASES)('%s', (title, cell, result) => {
  const before = after(cell);
  const fixes = fixesAt(bookOf(before), before.length - cell.length, before.length);
  const fix = fixes.find((one) => one.title === title);
  expect(fixes.map((one) => one.title)).toContain(title);
  expect(changed(before, fix!.changes)).toBe(after(result));
});

test('a station gets limits, in the cell that is there or a new one', () => {
  const bare = `${MACHINE}---\nmarks: M1\nshots: centre\n`;
  const limit = (text: string) => {
    const fix = fixesAt(bookOf(text), 0, text.length).find(({ title }) => title.startsWith('Give'))!;
    return changed(text, fix.changes);
  };
  expect(limit(bare)).toContain('---\nlimits: workshop standard\nstations:\n  M1: {centre: 2 mm}\n---\nmarks: M1\n');
  expect(limit(bare.replace('---\n', '---\nlimits: w\nstations:\n  M2: {centre: 1}\n---\n'))).toContain(
    'stations:\n  M1: {centre: 2 mm}\n  M2',
  );
  expect(limit(bare.replace('---\n', '---\nlimits: w\nstations: {M2: {centre: 1}}\n---\n'))).toContain(
    'stations: {M1: {centre: 2 mm}, M2',
  );
});

describe('all that is certain at once', () => {
  test('mends what is only written badly, and leaves what may have been meant otherwise', () => {
    const before = after(
      'date: 2026-03-14\nsession: no\n',
      'marks: M1\nshots: 1,5 right 2 down\n',
      'adjust: M1x\nlock: tight\n',
    );
    const mended = changed(before, fixAll(bookOf(before)));
    expect(mended).toContain('shots: 1.5 right 2 down');
    expect(mended).toContain('adjust: M1x');
  });
});

test('the release step leaves a blank for the name, with the cursor in it', () => {
  const before = after(...Object.values(CENTRED));
  const { change, cursor } = addStep(bookOf(before))!;
  const added = changed(before, [change]);
  expect(`${added.slice(0, cursor)}$0${added.slice(cursor)}`).toBe(`${before}---\nrelease: in service\nby: $0\n`);
});

test('the advised step is appended unchanged, with the cursor in the first mark', () => {
  const before = after('marks: M1\nshots: centre\n');
  const { change, cursor, title } = addStep(bookOf(before))!;
  const added = changed(before, [change]);
  expect(title).toBe('Log step: shoot M2 near (rear) and far (front)');
  expect(`${added.slice(0, cursor)}$0${added.slice(cursor)}`).toBe(
    `${before}---\nmarks: M2\nshots:\n  near: $0\n  far: \n`,
  );
});
