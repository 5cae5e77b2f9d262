/** Unfit parts, which must not be exposed to the beam: found, named, blocking, and cleared only by care. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { severity } from '../../src/model/index.ts';
import { bookOf } from '../support/workbook.ts';
import { CENTRED, LIMITS, MACHINE } from '../support/log.ts';
import { drawn } from '../support/amount.ts';

const EVERYTHING = [CENTRED.M1, CENTRED.M2, CENTRED.M3, CENTRED.lens];
const RELEASE = 'release: in service\nby: kt\n';
const care = (part: string, ...words: string[]) => `care: ${part}\n${words.map((word) => `${word}\n`).join('')}`;

/** Random logs, in any order. */
describe('random logs', () => {
  const CELLS = [
    ...EVERYTHING,
    RELEASE,
    'release: withdrawn\n',
    'session: another visit\n',
    'event: collision\n',
    'event: new tube\n',
    LIMITS,
    MACHINE,
    'adjust: M1\nturn: {A: in 1/4}\n',
    'adjust: M2\nlock: loose\n',
    'adjust: M2\nlock: tight\n',
    'adjust: tube\nshift: 1 mm up\n',
    'adjust: M1\nlock: losse\n',
    'marks: M2\nshots: {near: 4 right 0 up, far: 9 right 3 up}\n',
    'marks: M2\nshots: {near: none, far: none}\n',
    'marks: M1\nshots: 5 left 0 up shape double\n',
    'marks: M3\nshots: {near: 3 right, far: rubbish}\n',
    'power: lens\nreading: 40 W\n',
    'checks: make safe\ndone: [eyewear]\n',
    'note: anything\n',
    'care: M2\nfound: loose\ndid: tihgtened\n',
    'care: M2\ndid: replaced\nwiht: pliers\n',
    care('M2', 'found: clean', 'did: inspected'),
    care('M2', 'did: cleaned in place'),
    care('M2', 'did: removed and cleaned'),
    care('M2', 'found: loose'),
    care('M2', 'did: tightened'),
    care('M3', 'did: replaced'),
    care('lens', 'did: replaced'),
  ];
  const some = fc.array(fc.constantFrom(...CELLS), { maxLength: 8 });
  /** Findings that depend on the rest of the visit. */
  const SETTLED: ReadonlySet<string> = new Set(['care.unfit', 'log.loose', 'mount.contradicted']);
  const open = (book: ReturnType<typeof bookOf>) =>
    book
      .findings()
      .filter(({ code, facts }) => code === 'care.unfit' && facts['part'] === 'M2' && facts['found'] === 'cracked');

  test('while an optic is cracked nothing is shot, turned, moved, locked or released; once it is replaced, all errors of it are gone', () => {
    fc.assert(
      fc.property(some, some, some, (before, between, later) => {
        const cells = [MACHINE, LIMITS, ...before, care('M2', 'found: cracked'), ...between];
        const cracked = bookOf(cells.join('---\n'));
        const { verdict, steps, whole } = cracked.evaluation();
        expect([verdict, whole, ...new Set(steps.map(({ kind }) => kind))]).toEqual(['blocked', undefined, 'care']);
        expect(open(cracked).map(severity)).toEqual(['error']);
        const mended = bookOf([...cells, care('M2', 'did: replaced'), ...later].join('---\n'));
        expect(open(mended).map(severity)).toEqual(['information']);
        const others = (book: typeof mended) =>
          book.findings().filter((finding) => severity(finding) === 'error' && !SETTLED.has(finding.code));
        expect(
          others(mended)
            .filter(({ cell }) => cell < cells.length)
            .map(({ code, cell }) => `${cell} ${code}`),
        ).toEqual(others(cracked).map(({ code, cell }) => `${cell} ${code}`));
      }),
      drawn(100),
    );
  });
});
