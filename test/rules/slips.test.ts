/** A length that cannot be: what was probably meant is asked, and nothing is asked where something else explains it. */
import { describe, expect, test } from 'vitest';
import { message, type Finding } from '../../src/model/index.ts';
import { CENTRED, evaluated, LIMITS, log, MACHINE } from '../support/log.ts';

const { M1 } = CENTRED;
const result = (findings: readonly Finding[], code: string) => findings.filter((one) => one.code === code).map(message);
const m2 = (near: string, far: string) => `marks: M2\nshots: {near: ${near}, far: ${far}}\n`;
const INCHES = MACHINE.replace('machine: wren\n', 'machine: wren\nunits: in\n');

describe('a mark outside the aperture', () => {
  test.each([
    ['15 right 0 up', 'Is it 1.5 mm right (machine left) (decimal point off by one place)?'],
    ['15 right 2 down', 'Is it 1.5 mm right (machine left) 2.0 mm down (decimal point off by one place)?'],
  ])('%s', (far, wording) => {
    expect(result(log(M1, m2('1 right 0 up', far)).findings, 'mark.outside')).toEqual([
      expect.stringContaining(wording),
    ]);
  });

  test('in a machine in inches the other unit comes first, and the message uses it', () => {
    const said = result(
      evaluated(INCHES, LIMITS, M1, m2('1/32 right 0 up', '1.5 right 2 down')).findings,
      'mark.outside',
    );
    expect(said).toEqual([
      expect.stringMatching(
        /^This mark is 2 1\/2 in from the centre, outside the aperture \(radius 13\/32 in\)\. Is it 1\.5 mm right \(machine left\) 2\.0 mm down \(in the other unit\)\?$/,
      ),
    ]);
  });

  test('a mark that no slip explains gets no question', () => {
    expect(
      result(log(M1, m2('0 right 0 up', '0 right 0 up'), m2('0 right 0 up', '60 right 0 up')).findings, 'mark.outside'),
    ).toEqual(['This mark is 60.0 mm from the centre, outside the aperture (radius 10.0 mm).']);
  });
});

describe('a mark that is not where it was, though nothing was moved', () => {
  const before = [M1, m2('0 right 0 up', '0 right 0 up'), m2('0 right 0 up', '0 right 0 up')];

  test('8 instead of 0.8', () => {
    expect(result(log(...before, m2('0 right 0 up', '8 right 0 up')).findings, 'log.unexpected')).toEqual([
      expect.stringMatching(/Is it 0\.8 mm right \(machine left\) \(decimal point off by one place\)\?$/),
    ]);
  });

  test('no question after a shift like a knock, or with a turn in between', () => {
    for (const cells of [
      [m2('0 right 0 up', '4 right 0 up')],
      ['adjust: M1\nturn: {B: in 1/16}\n', m2('0 right 0 up', '8 right 0 up')],
    ]) {
      const said = result(log(...before, ...cells).findings, 'log.unexpected');
      expect([said.length, said.join(' ')]).toEqual([1, expect.not.stringContaining('Is it')]);
    }
  });
});

describe('a shift that takes the beam out of the aperture', () => {
  test.each([
    [
      'the tube by 25 mm',
      'adjust: tube\nshift: 25 mm up\n',
      [
        'This shift moves the beam to 25.0 mm from the centre of M1, outside its aperture (radius 10.0 mm). Is it 2.5 mm up (decimal point off by one place)?',
      ],
    ],
    [
      'the block of M1 by 25 mm',
      'adjust: M1\nshift: 25 mm up\n',
      [
        'This shift moves the beam to 25.0 mm from the centre of M1, outside its aperture (radius 10.0 mm). Is it 2.5 mm up (decimal point off by one place)?',
      ],
    ],
    ['along the beam it takes it nowhere', 'adjust: tube\nshift: 25 mm left\n', []],
    ['a shift as one makes it', 'adjust: tube\nshift: 2.5 mm up\n', []],
  ])('%s', (_, cell, said) => {
    expect(result(log(M1, cell).findings, 'shift.far')).toEqual(said);
  });

  test('a shift that brings a lost beam back is no finding', () => {
    expect(
      result(log('marks: M1\nshots: 0 right 9 down\n', 'adjust: tube\nshift: 12 mm up\n').findings, 'shift.far'),
    ).toEqual([]);
  });
});
