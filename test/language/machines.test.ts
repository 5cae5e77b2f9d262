/** A workbook among others: who has to do something about its machine, and what matters most about it. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { isDescription, machineSummary } from '../../src/language/index.ts';
import { CENTRED, LIMITS, MACHINE } from '../support/log.ts';
import { bookOf } from '../support/workbook.ts';

const TODAY = '2026-05-20';
const of = (...cells: string[]) => machineSummary(bookOf(cells.join('---\n')), TODAY);
/** `due: within · lens in 4 h` */
function stated(...cells: string[]): string {
  const { group, says } = of(...cells);
  return `${group}: ${says}`;
}
const SESSION = 'session: spring\ndate: 2026-05-02\nby: jv\n';
const RELEASE = 'release: in service\nby: jv\n';
const ALL = [CENTRED.M1, CENTRED.M2, CENTRED.M3, CENTRED.lens];
const cared = (care: string) => `${MACHINE}care: {${care}}\n`;

describe('the group, by what somebody must do', () => {
  test('released and within: in service, with the next day', () => {
    expect(stated(MACHINE, LIMITS, SESSION, ...ALL, RELEASE)).toBe('service: within · last visit 2026-05-02');
    expect(stated(cared('M1: every year'), LIMITS, SESSION, 'care: M1\ndid: inspected\n', ...ALL, RELEASE)).toBe(
      'service: within · next 2027-05-02',
    );
  });

  test('care within 30 days, or overdue: due, with what is due first', () => {
    const after = (last: string) => [
      cared('M1: every 3 months'),
      LIMITS,
      `session: spring\ndate: ${last}\n`,
      'care: M1\ndid: inspected\n',
      ...ALL,
      RELEASE,
    ];
    expect(stated(...after('2026-03-07'))).toBe('due: within · M1 in 18 days');
    expect(stated(...after('2026-02-07'))).toBe('due: within · M1 overdue since 2026-05-07');
    expect(stated(...after('2026-03-07'), 'event: knocked against the gantry\n')).toBe('needs: stale · not released');
  });

  test('what is off, not trusted, stopped, withdrawn or begun needs somebody', () => {
    const outside = 'marks: M1\nshots: 6 right 5 up\n';
    expect(stated(MACHINE, LIMITS, SESSION, outside)).toBe('needs: outside: M1 · not released since 2026-05-02');
    expect(stated(MACHINE, LIMITS, SESSION, ...ALL)).toBe('needs: within · not released since 2026-05-02');
    expect(stated(MACHINE, LIMITS, SESSION, ...ALL, 'release: withdrawn\n')).toBe('needs: within · withdrawn');
    expect(stated(MACHINE, LIMITS, SESSION, ...ALL, RELEASE, 'care: M2\nfound: cracked\n')).toMatch(
      /^needs: do not fire: M2 cracked/,
    );
    expect(stated(MACHINE, LIMITS, SESSION, ...ALL, RELEASE, 'event: knocked\n')).toMatch(/^needs: stale/);
    expect(stated(MACHINE, LIMITS)).toBe('needs: not shot');
  });

  test('an error needs somebody, and is counted', () => {
    const text = stated(MACHINE, LIMITS, SESSION, ...ALL, RELEASE, 'care: M9\ndid: inspected\n');
    expect(text).toMatch(/^needs: .* · 1 error$/);
  });

  test('a simulated machine is practice, whatever its state', () => {
    const practice = `${MACHINE}practice: {seed: 7, level: 2}\n`;
    expect(stated(practice, LIMITS, SESSION)).toBe('practice: PRACTICE · not shot');
  });

  test.each([
    ['', 'empty: no machine in it yet'],
    ['# only a comment\n', 'empty: no machine in it yet'],
    ['note: nothing else\n', 'no machine in it'],
    ['session: spring\n---\nmachine: wren\npath: {}\n', 'line 3: the machine cell has errors'],
    [`${MACHINE}<<<<<<< a\n---\nnote: x\n=======\n---\nnote: y\n>>>>>>> b\n`, 'line 20: merge conflict'],
  ])('%j cannot be read', (text, says) => expect(of(text)).toMatchObject({ group: 'unreadable', says }));
});

test('facts below the machine, each with its cell', () => {
  const summary = of(
    cared('lens: every 40 h, M2: every 3 months, M3: every 3 months'),
    LIMITS,
    'session: spring service\ndate: 2026-03-07\nby: jv\nhours: 1204 h\n',
    'care: lens\ndid: removed and cleaned\n',
    'care: M2\ndid: cleaned in place\n',
    'care: M3\ndid: cleaned in place\n',
    'checks: before handing back\ndone: [interlock tried]\nopen: [order tape]\n',
    ...ALL,
    RELEASE,
  );
  expect(summary).toMatchObject({ group: 'due', name: 'wren', state: 'within', says: 'within · lens in 40 h' });
  expect('items' in summary && summary.items.map(({ name, says, place }) => [name, says, place!.cell])).toEqual([
    ['Last visit', '2026-03-07, spring service, jv', 2],
    ['lens care', 'in 40 h, at 1244 h', 3],
    ['M2, M3 care', '2026-06-07, in 18 days', 4],
    ['Open points', '1: order tape', 6],
  ]);
});

test('an open point that a later list has as done is no longer one', () => {
  const open = 'checks: make safe\nopen: [order tape, extinguisher]\n';
  const items = (...cells: string[]) => {
    const summary = of(MACHINE, LIMITS, SESSION, open, ...cells);
    return 'items' in summary ? summary.items.filter(({ kind }) => kind === 'open').map(({ says }) => says) : [];
  };
  expect(items()).toEqual(['2: order tape; extinguisher']);
  expect(items('checks: later\ndone: [Order  tape]\n')).toEqual(['1: extinguisher']);
  expect(items('checks: later\ndone: [order tape, extinguisher]\n')).toEqual([]);
});

test('the examples are in the groups that their last lines give them', () => {
  const read = (file: string) =>
    readFileSync(new URL(`../../examples/${file}.alignbook.yaml`, import.meta.url), 'utf8');
  const files = { 'machines/bollard.alignbook.yaml': read('machines/bollard') };
  const names = ['1-full-service', '2-new-tube', '4-inches', '5-missed', '6-through-the-year', 'mistakes'];
  const all = names.map((name) => machineSummary(bookOf(read(name), files), TODAY));
  expect(all.map(({ group, says }) => `${group}: ${says}`)).toEqual([
    'due: within · lens in 39.6 h',
    'service: within · last visit 2026-02-18',
    'needs: not shot: lens · withdrawn',
    'needs: outside: M2 · not released since 2026-05-09',
    'needs: not shot: M3, lens · not released since 2026-07-11',
    'unreadable: line 114: merge conflict',
  ]);
  const [, , , , year] = all;
  expect('items' in year! && year.items.find(({ kind }) => kind === 'drift')).toMatchObject({
    name: 'M2 drifts out',
    says: 'about 2026-09-05',
  });
});

test('a file that only describes a machine for others is told from a log', () => {
  expect(isDescription(bookOf(MACHINE))).toBe(true);
  expect(isDescription(bookOf([MACHINE, LIMITS].join('---\n')))).toBe(true);
  expect(isDescription(bookOf([MACHINE, LIMITS, SESSION].join('---\n')))).toBe(false);
  expect(isDescription(bookOf(''))).toBe(false);
});
