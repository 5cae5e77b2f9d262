/** What is offered at the cursor `$0`. Copy a line to add a case. */
import { describe, expect, test } from 'vitest';
import { completionsAt, createGuide } from '../../src/language/index.ts';
import { after, bookOf, readMarked } from '../support/workbook.ts';

const guide = createGuide();

function offered(marked: string, withNuts = false) {
  const { text, cursor } = readMarked(withNuts ? after(marked).replace('locks: none', 'locks: nut') : after(marked));
  return completionsAt(bookOf(text), guide, cursor, '2026-03-14');
}

const labels = (marked: string) => offered(marked).map(({ label }) => label);

/** The first of what is offered. */
const FIRST: readonly (readonly [what: string, cell: string, ...labels: string[]])[] = [
  ['stations', 'marks: $0\nshots: centre\n', 'M1', 'M2', 'M3', 'lens'],
  ['the stops of the station, those not there yet', 'marks: M2\nshots: {near: 1.5 right 2.0 down, $0}\n', 'far'],
  ['stops in a block', 'marks: M2\nshots:\n  near: centre\n  $0\n', 'far'],
  ['carriages that move the mark', 'marks: lens\nshots:\n  - {at: here, with: {$0}}\n', 'M2', 'M3'],
  ['a carriage’s stops', 'marks: lens\nshots:\n  - {at: here, with: {M2: $0}}\n', 'near', 'far'],
  ['parts that can be moved', 'adjust: $0\n', 'tube', 'M1', 'M2', 'M3'],
  ['screws', 'adjust: M1\nturn: {A: in 1/4, $0', 'B', 'C'],
  ['the direction of a turn', 'adjust: M1\nturn: {A: $0}\n', 'in', 'out'],
  ['a mark’s directions', 'marks: M2\nshots: {near: 1.5 $0', 'right', 'left', 'up', 'down'],
  ['those that are left', 'marks: M2\nshots: {near: 1.5 right 2.0 $0', 'left', 'up', 'down'],
  ['the machine’s on an upright leg', 'marks: lens\nshots: 1.5 $0\n', 'right', 'left', 'rear', 'front'],
  ['keys that are not there yet', 'care: M2\nfound: dusty\n$0\n', 'did', 'with', 'refit', 'date', 'by', 'note'],
  [
    'words',
    'care: M2\nfound: $0\n',
    'clean',
    'dusty',
    'hazy',
    'spotted',
    'scratched',
    'burnt',
    'pitted',
    'cracked',
    'loose',
  ],
  [
    'what was done',
    'care: M2\ndid: $0\n',
    'inspected',
    'cleaned in place',
    'removed and cleaned',
    'tightened',
    'replaced',
  ],
  ['carriages of a power reading', 'power: lens\nreading: 60 W\nwith: {$0}\n', 'M2', 'M3'],
  ['their stops', 'power: lens\nreading: 60 W\nwith: {M2: $0}\n', 'near', 'far'],
  ['today', 'session: spring\ndate: $0\n', '2026-03-14'],
  ['threads', 'machine: other\nmounts:\n  c: {screws: {A: {}}, thread: $0}\n', 'M4', 'M4x0.5', '8-32 UNC'],
  ['screws that go no further', 'adjust: M1\nno further: {$0}\n', 'A', 'B', 'C'],
  ['and which way', 'adjust: M1\nno further: {A: $0}\n', 'in', 'out'],
  ['how lock nuts are', 'adjust: M1\nlock: found $0\n', 'loose', 'tight', 'found loose', 'found tight'],
  ['units', 'limits: w\nstations: {M1: {centre: 3 $0}}\n', 'mm', 'in'],
  ['what is needed, first', 'machine: other\nsource: {$0}\n', 'fires'],
  ['what the log asks for, then cells of every kind', '$0\n', 'next: shoot M1', 'machine', 'limits'],
];

describe('first come', () => {
  test.each(FIRST)('%s', (_, cell, ...expected) => expect(labels(cell).slice(0, expected.length)).toEqual(expected));
});

/** M1 is to be turned, by A, B or C. */
const ASKED =
  'marks: M1\nshots: centre\n---\nmarks: M2\nshots: {near: 1.5 right 2.0 down, far: 6.0 right 5.5 down}\n---\n';
/** All is well, but M2 was never tightened. */
const LOOSE = `adjust: M2
lock: loose
---
marks: M1
shots: centre
---
marks: M2
shots: [{at: near, mark: centre}, {at: 410 mm, mark: centre}, {at: far, mark: centre}]
---
marks: M3
shots:
  - {at: near, with: {M2: near}, mark: centre}
  - {at: far, with: {M2: far}, mark: centre}
  - {at: far, with: {M2: near}, mark: centre}
  - {at: near, with: {M2: far}, mark: centre}
  - {at: 490 mm, mark: centre}
---
marks: lens
shots:
  - {at: here, with: {M2: near, M3: near}, mark: centre}
  - {at: here, with: {M2: far, M3: far}, mark: centre}
`;
const advised = (marked: string, withNuts = false) =>
  offered(marked, withNuts)
    .filter(({ detail }) => detail === 'advised now')
    .map(({ text }) => text);

test('the direction of a turn names clockwise or anticlockwise, by the hand of the thread', () => {
  const details = (of: string) => {
    const { text, cursor } = readMarked(of);
    return completionsAt(bookOf(text), guide, cursor).map(({ label, detail }) => `${label}: ${detail}`);
  };
  const marked = after('adjust: M1\nturn: {A: $0}\n');
  expect(details(marked).slice(0, 2)).toEqual(['in: clockwise, the tip advances', 'out: anticlockwise']);
  expect(details(marked.replace('thread: M4', 'thread: M4 LH')).slice(0, 2)).toEqual([
    'in: anticlockwise: left-hand thread, the tip advances',
    'out: clockwise: left-hand thread',
  ]);
});

describe('what is advised now comes first', () => {
  const [part] = advised(`${ASKED}adjust: $0\n`);
  const [turn] = advised(`${ASKED}adjust: M1\nturn: $0\n`);
  const [, screw, amount] = /^\{(\w): (.*)\}$/.exec(turn!)!;
  test('the part', () => expect(part).toBe('M1'));
  test('the turn, for its screw', () =>
    expect(advised(`${ASKED}adjust: M1\nturn: {${screw}: $0}\n`)).toEqual([amount]));
  test('not for another part', () => expect(advised(`${ASKED}adjust: M2\nturn: $0\n`)).toEqual([]));
  test('the station to shoot', () => expect(advised('marks: $0\n')).toEqual(['M1']));
  test('the shift', () =>
    expect(advised('marks: M1\nshots: 5 right 5 up\n---\nadjust: tube\nshift: $0\n')).toEqual([
      '5 mm front 5 mm down',
    ]));
  test('the lock', () => expect(advised(`${LOOSE}---\nadjust: M2\nlock: $0\n`, true)).toEqual(['tight']));
});

test('what is typed already is replaced, and no more', () => {
  const { text, cursor } = readMarked(after('care: M2\nfound: dus$0\n'));
  const dusty = completionsAt(bookOf(text), guide, cursor).find(({ label }) => label === 'dusty')!;
  expect(text.slice(0, dusty.start) + dusty.text + text.slice(dusty.end)).toContain('\nfound: dusty\n');
});

test('the advised cell leaves its marks to be filled in', () => {
  expect(offered('$0\n')[0]).toMatchObject({ isSnippet: true, text: 'marks: M1\nshots:\n  here: ${1:}\n' });
});

test('nothing is offered twice', () => expect(labels('adjust: $0\n')).toEqual(['tube', 'M1', 'M2', 'M3']));

describe('nothing is offered', () => {
  test.each(['note: |\n  some te$0xt\n', '# a com$0\nnote: a\n', 'note: a\n---$0\n', 'note: a\n-$0'])('%j', (cell) =>
    expect(labels(cell)).toEqual([]),
  );
});

test('every key and word that is offered is known to the format', () => {
  const { text, cursor } = readMarked(after('marks: M2\n$0\n'));
  for (const { label, kind } of completionsAt(bookOf(text), guide, cursor).filter((one) => one.kind === 'key'))
    expect(guide.at('marks', [label]), `${kind} ${label}`).toBeDefined();
});
