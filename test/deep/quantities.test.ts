/** Properties of every text and every reader, checked on random texts built from relevant pieces. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  createCalculator,
  expressions,
  QUANTITY_CODES,
  readAngle,
  readDate,
  readExpression,
  readFraction,
  readInterval,
  readLength,
  readMark,
  readName,
  readNumber,
  readPower,
  readPulsePower,
  readShift,
  readTime,
  readTurn,
  resolveMark,
  type Reading,
} from '../../src/workbook/quantities/index.ts';
import { HOSTILE_PIECES, repeated } from '../workbook/hostile.ts';
import { INCHES, MM } from '../workbook/quantities/context.ts';
import { drawn } from '../support/amount.ts';

const READERS: Readonly<Record<string, (text: string) => Reading<unknown>>> = {
  length: (text) => readLength(text, MM),
  inches: (text) => readLength(text, INCHES, 'positive'),
  angle: (text) => readAngle(text, MM),
  power: (text) => readPower(text, MM),
  pulse: (text) => readPulsePower(text, MM),
  time: (text) => readTime(text, MM),
  number: (text) => readNumber(text, MM),
  fraction: (text) => readFraction(text, MM),
  expression: (text) => readExpression(text, MM),
  turn: (text) => readTurn(text, MM),
  mark: (text) => readMark(text, MM),
  shift: (text) => readShift(text, MM),
  date: readDate,
  interval: readInterval,
  name: readName,
};

const piece = fc.constantFrom(
  '1',
  '2.5',
  '1/8',
  '1 1/8',
  '1,5',
  '500',
  '0',
  '1e9',
  ' ',
  ' ',
  ' mm',
  ' in',
  ' in ',
  'deg',
  '%',
  '°',
  'W',
  'ms',
  ' + ',
  ' - ',
  '-',
  '*',
  '/',
  '×',
  '−',
  '(',
  ')',
  'sqrt(',
  ' ± ',
  '+-',
  'out ',
  ' turn',
  ' flats',
  ' at rim',
  ' right ',
  ' left ',
  ' up ',
  ' front ',
  'centre',
  'none',
  ' at ',
  '4:30',
  ' size ',
  ' shape ',
  'oval',
  ',',
  'every ',
  'months',
  '2026-02-30',
  'T10:20',
  'x',
  '_',
  '½',
  '"',
  '🔧',
  '\ud800',
  '\n',
  '\u00a0',
  '__proto__',
  'NaN',
  'Infinity',
  'createUnit',
);
const text = fc.oneof(
  fc.array(piece, { maxLength: 12 }).map((pieces) => pieces.join('')),
  fc.string({ maxLength: 20 }),
);

function checkAnswer(read: (text: string) => Reading<unknown>, written: string): void {
  const { value, problems } = read(written);
  expect(value === undefined).toBe(problems.length > 0);
  for (const { code, from, to, facts, fix } of problems) {
    expect(QUANTITY_CODES).toContain(code);
    expect(0 <= from && from <= to && to <= written.length).toBe(true);
    expect(Object.values(facts).every((fact) => typeof fact === 'string')).toBe(true);
    expect(fix).not.toBe(written.slice(from, to));
  }
  expect(JSON.stringify(value) ?? '').not.toContain('null'); // no NaN or Infinity in any value
}

describe.each(Object.entries(READERS))('every text as %s', (_, read) => {
  test('gives a value or problems that point into it', () => {
    fc.assert(
      fc.property(text, (written) => checkAnswer(read, written)),
      drawn(150),
    );
  });
});

describe('hostile texts', () => {
  test.each(HOSTILE_PIECES)('a hundred thousand of %j are refused by their length; fewer end in an answer', (piece) => {
    for (const [name, read] of Object.entries(READERS)) {
      const codes = read(repeated(piece, 100_000)).problems.map(({ code }) => code);
      expect(codes, name).toEqual([name === 'name' ? 'name.unreadable' : 'quantity.tooLong']);
      checkAnswer(read, repeated(piece, 390));
    }
  });
});

describe('units are only notation', () => {
  const close = (a: number | undefined, b: number) =>
    expect(Math.abs(a! - b)).toBeLessThanOrEqual(1e-12 * Math.max(1, Math.abs(b)));
  const amount = fc.integer({ min: -100_000, max: 100_000 }).map((n) => n / 1000);

  test('a length is the same in every unit, bare or written, plain or as an expression', () => {
    fc.assert(
      fc.property(amount, (mm) => {
        close(readLength(`${mm}`, MM).value?.value, mm);
        close(readLength(`${mm} mm`, INCHES).value?.value, mm);
        close(readLength(`${mm} in`, MM).value?.value, 25.4 * mm);
        close(readLength(`${mm}`, INCHES).value?.value, 25.4 * mm);
        close(readLength(`(${mm}) * 1 mm`, MM).value?.value, mm);
        close(readLength(`1000 * (${mm} um)`, MM).value?.value, mm);
        close(readLength(`${mm} cm / 10`, MM).value?.value, mm);
        close(readLength(`0 mm + ${mm} mm ± 0.1 mm`, MM).value?.value, mm);
      }),
    );
  });

  test('fractions of an inch', () => {
    fc.assert(
      fc.property(fc.nat(40), fc.integer({ min: 1, max: 63 }), (whole, sixtyFourths) => {
        const mm = 25.4 * (whole + sixtyFourths / 64);
        close(readLength(`${whole} ${sixtyFourths}/64 in`, MM).value?.value, mm);
        close(readLength(`${whole} ${sixtyFourths}/64`, INCHES).value?.value, mm);
        close(readLength(`${whole} in + ${sixtyFourths}/64 in`, MM).value?.value, mm);
        close(readLength(`${64 * whole + sixtyFourths}/64 in`, MM).value?.value, mm);
      }),
    );
  });

  test('an expression is evaluated by the rules of arithmetic', () => {
    const grammar = fc.letrec<{ sum: string }>((tie) => ({
      sum: fc.oneof(
        { maxDepth: 4 },
        fc.integer({ min: 1, max: 9 }).map(String),
        fc
          .tuple(tie('sum'), fc.constantFrom('+', '-', '*', '/'), tie('sum'))
          .map(([a, sign, b]) => `${a} ${sign} ${b}`),
        tie('sum').map((a) => `(${a})`),
        tie('sum')
          .map((a) => `-(${a})`)
          .map((a) => `(${a})`),
      ),
    })).sum;
    fc.assert(
      fc.property(grammar, (written) => {
        const expected = new Function(`return ${written}`)() as number;
        fc.pre(Number.isFinite(expected) && Math.abs(expected) < 1e8 && written.length <= 400);
        close(readNumber(written, MM).value?.value, expected);
      }),
    );
  });
});

test('a mark that was read has a place on every leg, or a reason why not', () => {
  fc.assert(
    fc.property(
      text,
      fc.constantFrom('left', 'right', 'front', 'rear', 'up', 'down'),
      fc.constantFrom('against beam', undefined),
      (written, leg, side) => {
        const mark = readMark(written, MM).value;
        if (!mark) return;
        const { value, problems } = resolveMark(mark, leg, side);
        expect(value === undefined).toBe(problems.length > 0);
        if (value && mark.place.kind !== 'none') expect(value.right !== undefined || value.up !== undefined).toBe(true);
      },
    ),
  );
});

test('the parser is set up once, and only for a true expression', () => {
  const parsed: string[] = [];
  const inner = createCalculator(expressions);
  const calculator = {
    parse(form: string) {
      parsed.push(form);
      return inner.parse(form);
    },
  };
  const context = { units: 'mm', calculator } as const;
  for (const plain of ['1.5 mm', '1 1/8 in', '-1/8', '44 mm ± 1 mm', '1,5', 'foo', '', '(', '1 +'])
    readLength(plain, context);
  readTurn('in 1/4', context);
  readMark('1.5 right 2.0 down', context);
  expect(parsed).toEqual([]);
  readLength('90 mm + sqrt(4) in', context);
  expect(parsed).toEqual(['q0+sqrt(q1)*q2']); // it never sees a user's word or number
});
