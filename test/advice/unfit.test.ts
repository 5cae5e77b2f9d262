/** Unfit parts, which must not be exposed to the beam: found, named, blocking, and cleared only by care. */
import { describe, expect, test } from 'vitest';
import { cautionsFor } from '../../src/language/index.ts';
import { severity, type Evaluation } from '../../src/model/index.ts';
import { bookOf } from '../support/workbook.ts';
import { CENTRED, codes, evaluated, LIMITS, log, MACHINE } from '../support/log.ts';

const EVERYTHING = [CENTRED.M1, CENTRED.M2, CENTRED.M3, CENTRED.lens];
const RELEASE = 'release: in service\nby: kt\n';
const care = (part: string, ...words: string[]) => `care: ${part}\n${words.map((word) => `${word}\n`).join('')}`;

const kinds = ({ steps }: Evaluation) =>
  steps.map((step) => (step.kind === 'care' ? `care ${step.part} ${step.did}` : step.kind));
const unfit = ({ findings }: Evaluation) =>
  findings.filter(({ code }) => code === 'care.unfit').map((finding) => `${finding.cell} ${severity(finding)}`);

describe('unfit parts', () => {
  test.each([
    ['M2', 'cracked', 'care M2 replaced'],
    ['M2', 'loose', 'care M2 tightened'],
    ['lens', 'cracked', 'care lens replaced'],
    ['lens', 'loose', 'care lens tightened'],
    ['lens', 'pitted', 'care lens replaced'],
    ['lens', 'burnt', 'care lens replaced'],
    ['tube', 'cracked', 'care tube replaced'],
    ['M1', 'loose', 'care M1 tightened'],
  ])('%s found %s stops the work, even where all is within', (part, condition, step) => {
    const stopped = log(...EVERYTHING, care(part, `found: ${condition}`, 'did: inspected'));
    expect([stopped.verdict, kinds(stopped), unfit(stopped), stopped.expected]).toEqual([
      'blocked',
      [step],
      ['6 error'],
      [],
    ]);
  });

  test.each([
    ['M2', 'pitted'],
    ['M2', 'burnt'],
    ['lens', 'scratched'],
    ['lens', 'spotted'],
    ['M1', 'scratched'],
  ])('%s found %s is fired at', (part, condition) => {
    expect(unfit(log(care(part, `found: ${condition}`)))).toEqual([]);
    expect(kinds(log(care(part, `found: ${condition}`)))).toEqual(['shoot']);
  });

  test('before the first shot, too, and in a log without limits', () => {
    expect(kinds(log(care('M2', 'found: cracked')))).toEqual(['care M2 replaced']);
    expect(kinds(evaluated(MACHINE, care('M2', 'found: cracked')))).toEqual(['care M2 replaced']);
  });

  test('every part has its step, and a worse finding requires more', () => {
    expect(kinds(log(care('M2', 'found: loose'), care('lens', 'found: burnt'), care('M2', 'found: cracked')))).toEqual([
      'care M2 replaced',
      'care lens replaced',
    ]);
  });

  test('the step has the warning about touching a lens or the tube', () => {
    expect(cautionsFor(log(care('lens', 'found: cracked')).steps).lines.join(' ')).toMatch(/Zinc selenide/);
    expect(cautionsFor(log(care('tube', 'found: cracked')).steps).lines.join(' ')).toMatch(/lethal voltage/);
    expect(
      log(care('M2', 'found: cracked'))
        .steps.map(({ say, why }) => `${why} ${say}`)
        .join(' '),
    ).toMatch(/Do not shoot, turn or release anything/);
  });
});

describe('clearing an unfit part', () => {
  const after = (condition: string, ...cells: string[]) =>
    log(...EVERYTHING, care('M2', `found: ${condition}`), ...cells);
  const SOUND = ['found: clean', 'did: inspected'];

  test.each([
    ['cracked', [care('M2', 'did: replaced')], true],
    ['cracked', [care('M2', 'did: tightened')], false],
    ['cracked', [care('M2', 'did: removed and cleaned')], false],
    ['cracked', [care('M2', ...SOUND)], false],
    ['cracked', [care('M2', ...SOUND, 'note: ""')], false],
    ['cracked', [care('M2', ...SOUND, 'note: The line was a hair on the glass of the loupe.')], true],
    ['cracked', [care('M2', 'found: clean', 'note: Looks well.')], false],
    ['cracked', [care('M1', 'did: replaced')], false],
    ['cracked', ['session: the next day\n', 'event: new tube\n'], false],
    ['loose', [care('M2', 'did: tightened')], true],
    ['loose', [care('M2', 'did: replaced')], true],
    ['loose', ['adjust: M2\nlock: tight\n'], false],
    ['loose', [care('M2', 'found: cracked'), care('M2', 'did: tightened')], false],
  ])('found %s, then %j: %s', (condition, cells, isCleared) => {
    const now = after(condition, ...cells);
    expect(now.steps.some(({ kind }) => kind === 'care')).toBe(!isCleared);
    expect(now.findings.some((finding) => severity(finding) === 'error')).toBe(!isCleared);
  });

  test('the old finding is then information', () => {
    expect(unfit(after('cracked'))).toEqual(['6 error']);
    expect(unfit(after('cracked', care('M2', 'did: replaced')))).toEqual(['6 information']);
  });

  test('a part replaced in the cell that found it is never unfit', () => {
    expect(codes(log(...EVERYTHING, care('M2', 'found: cracked', 'did: replaced')).findings)).toEqual([]);
    expect(codes(log(...EVERYTHING, care('M2', 'found: loose', 'did: tightened')).findings)).toEqual([]);
  });

  test('a cell with errors still reports a crack, and clears none', () => {
    const book = (...cells: string[]) => bookOf([MACHINE, LIMITS, ...cells].join('---\n')).evaluation();
    expect(kinds(book('care: M2\nfound: cracked\ndid: inspekted\n'))).toEqual(['care M2 replaced']);
    expect(kinds(book('care: lens\nfound: "burnt"\nnote: "it was\n'))).toEqual(['care lens replaced']);
    expect(kinds(book('{care: M2, found: loose, wiht: pliers}\n'))).toEqual(['care M2 tightened']);
    expect(kinds(book(care('M2', 'found: cracked'), 'care: M2\ndid: replaced\nwiht: pliers\n'))).toEqual([
      'care M2 replaced',
    ]);
    expect(kinds(book('care: M2\nfound: dusty\ndid: inspekted\n'))).toEqual(['shoot']);
  });

  test('a part that the machine no longer has is cleared', () => {
    const without = MACHINE.replace(/ {2}lens: .*\n/, '');
    expect(
      kinds(evaluated(MACHINE, LIMITS, care('lens', 'found: cracked'), without, LIMITS.replace(/ {2}lens: .*\n/, ''))),
    ).toEqual(['shoot']);
  });

  test('a note added to the cell later clears the part at once', () => {
    const text = (note: string) =>
      [MACHINE, LIMITS, ...EVERYTHING, care('M2', 'found: cracked'), care('M2', ...SOUND, note)].join('---\n');
    const book = bookOf(text('by: kt'));
    expect(book.evaluation().verdict).toBe('blocked');
    book.change(text('note: A hair on the loupe.'));
    book.advance(() => false);
    expect(book.evaluation().verdict).toBe('within');
  });
});

describe('a release', () => {
  const signed = (...cells: string[]) =>
    log(...EVERYTHING, care('M2', 'found: cracked'), ...cells)
      .findings.filter(({ code }) => code === 'release.unfit')
      .map((finding) => `${finding.cell} ${severity(finding)} ${finding.facts['what']}`);

  test('a release with an unfit part stays an error, whatever follows', () => {
    expect(signed(RELEASE)).toEqual(['7 error M2 cracked']);
    expect(signed(RELEASE, care('M2', 'did: replaced'), ...EVERYTHING, RELEASE)).toEqual(['7 error M2 cracked']);
  });

  test('a release is accepted after replacement, and withdrawing always is', () => {
    expect(signed(care('M2', 'did: replaced'), ...EVERYTHING, RELEASE)).toEqual([]);
    expect(signed('release: withdrawn\nby: kt\n')).toEqual([]);
  });
});
