/** Single quantities. To add a case copy a line. */
import { describe, expect, test } from 'vitest';
import {
  dimensionName,
  readAngle,
  readExpression,
  readFraction,
  readLength,
  readNumber,
  readPower,
  readPulsePower,
  readQuantity,
  readTime,
} from '../../../src/workbook/quantities/index.ts';
import { INCHES, MM, problemsOf } from './context.ts';

describe('lengths in mm', () => {
  test.each<[string, number, number?]>([
    ['1.5 mm', 1.5],
    ['1.5mm', 1.5],
    [' 1.5  mm ', 1.5],
    ['1.5', 1.5],
    ['-22 mm', -22],
    ['−22 mm', -22],
    ['+3', 3],
    ['.5 mm', 0.5],
    ['1e2 mm', 100],
    ['0.9 m', 900],
    ['2 cm', 20],
    ['10.6 um', 0.0106],
    ['10.6 µm', 0.0106],
    ['10.6 μm', 0.0106],
    ['10600 nm', 0.0106],
    ['1 in', 25.4],
    ['1/8 in', 3.175],
    ['1 1/8 in', 28.575],
    ['-1/8 in', -3.175],
    ['1/2', 0.5],
    ['90 mm + 3/8 in', 99.525],
    ['90 mm - 3/8 in', 80.475],
    ['2 * 45 mm', 90],
    ['2 × 45 mm', 90],
    ['3 × (2 mm − 1 mm)', 3],
    ['(3/8 + 1/4) in', 15.875],
    ['90 mm / 2', 45],
    ['10 / 2 in', 127],
    ['sqrt(9 mm * 4 mm)', 6],
    ['sqrt(2) * 10', 10 * Math.SQRT2],
    ['90 mm * 3/4', 67.5],
    ['90 mm / 3/4', 7.5],
    ['90 mm * 10 mm / 3/4 mm', 1200],
    ['2 - -1', 3],
    ['3 mrad * 600 mm', 1.8],
    ['44 mm ± 1 mm', 44, 1],
    ['44 mm +- 1 mm', 44, 1],
    ['44 mm +/- 1 mm', 44, 1],
    ['44 ± 1 mm', 44, 1],
    ['44 mm ± 1', 44, 1],
    ['44 ± 1', 44, 1],
    ['1 ± 1/8 in', 25.4, 3.175],
    ['90 mm + 3/8 in ± 0.5 mm', 99.525, 0.5],
    ['44 mm ± 2 %', 44, 0.88],
    ['-44 mm ± 2 %', -44, 0.88],
  ])('%s', (text, value, u) => {
    const reading = readLength(text, MM);
    expect(problemsOf(reading, text)).toEqual([]);
    expect(reading.value?.value).toBeCloseTo(value, 12);
    if (u === undefined) expect(reading.value).not.toHaveProperty('u');
    else expect(reading.value?.u).toBeCloseTo(u, 12);
  });
});

test.each<[string, number, number?]>([
  ['1', 25.4],
  ['1/8', 3.175],
  ['1 1/8', 28.575],
  ['2 * 1/4', 12.7],
  ['3 mm', 3],
  ['1 ± 0.1', 25.4, 2.54],
  ['3 mm ± 1', 3, 1],
])('in a workbook in inches: %s', (text, value, u) => {
  expect(readLength(text, INCHES).value?.value).toBeCloseTo(value, 12);
  if (u !== undefined) expect(readLength(text, INCHES).value?.u).toBeCloseTo(u, 12);
});

describe('what is no length', () => {
  test.each<[string, ...string[]]>([
    ['', 'quantity.unreadable'],
    ['  ', 'quantity.unreadable'],
    ['mm', 'quantity.unreadable'],
    ['about 3 mm', 'quantity.unreadable at ‘about’'],
    ['3 mm!', 'quantity.unreadable at ‘!’'],
    ['1½ in', 'quantity.unreadable at ‘½’ → ‘ 1/2’'],
    ['90 mm – 3 mm', 'quantity.unreadable at ‘–’ → ‘-’'],
    ['1,5 mm', 'quantity.decimalComma at ‘1,5’ → ‘1.5’'],
    ['0,125 in', 'quantity.decimalComma at ‘0,125’ → ‘0.125’'],
    ['1,5 mm + 2,5 mm', 'quantity.decimalComma at ‘1,5’ → ‘1.5’', 'quantity.decimalComma at ‘2,5’ → ‘2.5’'],
    ['1,500 mm', 'quantity.thousands at ‘1,500’'],
    ['1,500,000 mm', 'quantity.thousands at ‘1,500,000’'],
    ['1,500.5 mm', 'quantity.thousands at ‘1,500.5’'],
    ['1 500 mm', 'quantity.thousands at ‘1 500’'],
    ['1-1/8 in', 'quantity.mixed at ‘1-1/8’ → ‘1 1/8’'],
    ['2 inch', 'quantity.unit at ‘inch’ → ‘in’'],
    ['5"', 'quantity.unit at ‘"’ → ‘in’'],
    ['12 MM', 'quantity.unit at ‘MM’ → ‘mm’'],
    ['1 cubit', 'quantity.unit at ‘cubit’'],
    ['2 3 mm', 'quantity.operator at ‘3 mm’'],
    ['1.5.2 mm', 'quantity.operator at ‘.2 mm’'],
    ['4 mm 5 mm', 'quantity.operator at ‘5 mm’'],
    ['2 (3 mm)', 'quantity.operator at ‘(’'],
    ['2 sqrt(9) mm', 'quantity.operator at ‘sqrt’'],
    ['90 mm +', 'quantity.operand at ‘+’'],
    ['* 90 mm', 'quantity.operand at ‘*’'],
    ['2 * / 3', 'quantity.operand at ‘/’'],
    ['- - 5', 'quantity.operand at ‘-’'],
    ['()', 'quantity.operand at ‘)’'],
    ['±', 'quantity.operand'],
    ['44 mm ±', 'quantity.operand at ‘±’'],
    ['± 1 mm', 'quantity.operand at ‘±’'],
    ['(90 mm', 'quantity.bracket at ‘(’'],
    ['90 mm)', 'quantity.bracket at ‘)’'],
    ['sqrt 4', 'quantity.bracket at ‘sqrt’'],
    ['1 ± 2 +- 3', 'quantity.expression at ‘+-’'],
    ['(1 ± 2) mm', 'quantity.expression at ‘±’'],
    [`${'('.repeat(40)}1${')'.repeat(40)}`, 'quantity.expression at ‘(’'],
    ['45 deg', 'quantity.dimension'],
    ['90 mm + 3', 'quantity.dimension at ‘3’'],
    ['90 mm / 2 mm', 'quantity.dimension'],
    ['90 mm * 2 mm', 'quantity.dimension'],
    ['50 mm + 10 %', 'quantity.dimension at ‘10 %’'],
    ['10 %', 'quantity.dimension'],
    ['sqrt(4 mm)', 'quantity.dimension at ‘4 mm’'],
    ['44 mm ± 1 deg', 'quantity.dimension at ‘1 deg’'],
    ['1e9 m', 'quantity.range'],
    ['1e999', 'quantity.range'],
    ['1/0 mm', 'quantity.range'],
    ['0/0 mm', 'quantity.range'],
    ['sqrt(0 - 4)', 'quantity.range at ‘0 - 4’'],
    ['44 mm ± 1e9 m', 'quantity.range at ‘1e9 m’'],
    ['44 mm ± -1 mm', 'quantity.sign at ‘-1 mm’'],
    ['9'.repeat(500), 'quantity.tooLong'],
  ])('%s', (text, ...problems) => expect(problemsOf(readLength(text, MM), text)).toEqual(problems));

  test('a length may have to be above zero, or not below it', () => {
    expect(problemsOf(readLength('0 mm', MM, 'positive'), '0 mm')).toEqual(['quantity.sign']);
    expect(problemsOf(readLength('1 mm - 2 mm', MM, 'not negative'), '1 mm - 2 mm')).toEqual(['quantity.sign']);
    expect(readLength('0 mm', MM, 'not negative').value).toEqual({ value: 0 });
  });

  test('the facts of a wrong unit and of a wrong dimension', () => {
    expect(readLength('2 inch', MM).problems[0]?.facts).toEqual({
      unit: 'inch',
      wanted: 'length',
      known: 'mm, cm, m, um, nm, in',
      suggestion: 'in',
    });
    expect(readLength('2 deg', MM).problems[0]?.facts).toEqual({ text: '2 deg', wanted: 'length', found: 'angle' });
  });
});

describe('other quantities', () => {
  test.each([
    ['45 deg', Math.PI / 4],
    ['45°', Math.PI / 4],
    ['2 mrad', 0.002],
    ['1 rad', 1],
    ['60 arcmin', Math.PI / 180],
    ['1/8 turn', Math.PI / 4],
    ['45 deg + 2 mrad', Math.PI / 4 + 0.002],
    ['1 mm / 600 mm', 1 / 600],
  ])('angle %s', (text, value) => expect(readAngle(text, MM).value?.value).toBeCloseTo(value, 12));

  test.each([
    ['45', 'quantity.noUnit'],
    ['2 mrad + 1', 'quantity.dimension at ‘1’'],
    ['3 mm', 'quantity.dimension'],
  ])('no angle: %s', (text, problem) => expect(problemsOf(readAngle(text, MM), text)).toEqual([problem]));

  test.each([
    [readPower, '80 W', 80],
    [readPower, '0.08 kW', 80],
    [readPower, '500 mW', 0.5],
    [readTime, '200 ms', 0.2],
    [readTime, '2 min', 120],
    [readTime, '40 h', 144_000],
    [readNumber, '1.2', 1.2],
    [readNumber, '120 %', 1.2],
    [readFraction, '20 %', 0.2],
    [readFraction, '0.2', 0.2],
    [readFraction, '1/4', 0.25],
  ])('%o %s', (read, text, value) => expect(read(text, MM).value?.value).toBeCloseTo(value, 12));

  test.each([
    [readPower, '80', 'quantity.noUnit'],
    [readPower, '80 w', 'quantity.unit at ‘w’ → ‘W’'],
    [readTime, '2 mm', 'quantity.dimension'],
    [readNumber, '2 mm', 'quantity.dimension'],
    [readFraction, '90', 'quantity.range → ‘90 %’'],
    [readFraction, '120 %', 'quantity.range'],
    [readFraction, '-5 %', 'quantity.range'],
  ])('%o not %s', (read, text, problem) => expect(problemsOf(read(text, MM), text)).toEqual([problem]));

  test.each([
    ['20 %', { ratio: 0.2 }],
    ['0.2', { ratio: 0.2 }],
    ['8 W', { watts: 8 }],
  ])('pulse power %s', (text, value) => expect(readPulsePower(text, MM).value).toEqual(value));

  test.each([
    ['8 mm', 'quantity.dimension'],
    ['-8 W', 'quantity.sign'],
    ['8 watts', 'quantity.unit at ‘watts’ → ‘W’'],
  ])('no pulse power: %s', (text, problem) => expect(problemsOf(readPulsePower(text, MM), text)).toEqual([problem]));
});

describe('scratch arithmetic', () => {
  const NAMES = new Map([
    ['gap', readExpression('3 mm', MM).value!],
    ['m', readExpression('2', MM).value!],
    ['heron.M1.leg', readExpression('90 mm', MM).value!],
  ]);

  test.each([
    ['gap * 2', 6, 'length'],
    ['gap * gap', 9, 'mm^2'],
    ['heron.M1.leg + gap', 93, 'length'],
    ['m + 1', 3, 'number'],
    ['2 m', 2000, 'length'],
    ['10 mm / mm', 10, 'number'],
    ['gap / heron.M1.leg', 1 / 30, 'number'],
    ['1/4', 0.25, 'number'],
    ['2 mrad', 0.002, 'angle'],
    ['80 W * 200 ms', 16, 'W s'],
    ['2 / (4 s)', 0.5, 's^-1'],
  ])('%s', (text, value, kind) => {
    const result = readExpression(text, MM, NAMES).value!;
    expect(result.value).toBeCloseTo(value, 12);
    expect([result.kind, dimensionName(result.dimension)]).toEqual([kind, kind]);
  });

  test('an uncertainty is of the same dimension, or a share', () => {
    expect(readExpression('gap ± 1 mm', MM, NAMES).value).toMatchObject({ value: 3, u: 1 });
    expect(readExpression('gap ± 10 %', MM, NAMES).value?.u).toBeCloseTo(0.3, 12);
    expect(problemsOf(readExpression('gap ± 1', MM, NAMES), 'gap ± 1')).toEqual(['quantity.dimension at ‘1’']);
  });

  test.each([
    ['gpa', 'quantity.name → ‘gap’'],
    ['2 gap', 'quantity.operator at ‘gap’'],
    ['A', 'quantity.name'],
    ['constructor', 'quantity.name'],
    ['__proto__', 'quantity.name'],
    ['gap.leg', 'quantity.name'],
    ['sin(1)', 'quantity.name at ‘sin’'],
    ['gap = 1', 'quantity.unreadable at ‘=’'],
    ['2^3', 'quantity.expression at ‘^’'],
    ['1; 2', 'quantity.unreadable at ‘;’'],
    ['1e308 * 1e308', 'quantity.range'],
  ])('not %s', (text, problem) => expect(problemsOf(readExpression(text, MM, NAMES), text)[0]).toBe(problem));
});

test.each([
  ['120 %', (text: string) => readFraction(text, MM), '0 %', '100 %'],
  ['1.2', (text: string) => readFraction(text, MM), '0', '1'],
  ['2000 m + 1 m', (text: string) => readLength(text, MM, 'positive'), '0 m', '1000 m'],
  ['-2000 m', (text: string) => readLength(text, MM), '-1000 m', '1000 m'],
] as const)('%s: the range is given in common units', (text, reader, least, most) => {
  expect(reader(text).problems[0]!.facts).toMatchObject({ least, most });
});

describe('values of any dimension', () => {
  test.each<[string, number, string, number?]>([
    ['0.2 mm', 0.2, 'length'],
    ['-1/32 in', -0.79375, 'length'],
    ['19.5 degC', 19.5, 'temperature'],
    ['19.5 ± 0.5 degC', 19.5, 'temperature', 0.5],
    ['20 degC ± 2 %', 20, 'temperature', 0.4],
    ['2 bar', 2e-4, 'pressure'],
    ['6 l/min', 1e5, 'flow'],
    ['6 l / min', 1e5, 'flow'],
    ['12 V', 12, 'voltage'],
    ['18 mA', 0.018, 'current'],
    ['12 V * 500 mA', 6, 'power'],
    ['40 %', 0.4, 'number'],
    ['1 mm / 500 mm', 0.002, 'number'],
  ])('%s', (text, value, kind, u) => {
    const reading = readQuantity(text, MM);
    expect(reading.problems).toEqual([]);
    expect(reading.value!.value).toBeCloseTo(value, 10);
    expect(reading.value!.kind).toBe(kind);
    if (u === undefined) expect(reading.value!.u).toBeUndefined();
    else expect(reading.value!.u).toBeCloseTo(u, 10);
  });

  test.each([
    ['3', 'quantity.noUnit'],
    ['3 ± 1', 'quantity.noUnit at ‘3’'],
    ['3 mm ± 1 degC', 'quantity.dimension at ‘1 degC’'],
    ['3 l', 'quantity.unit at ‘l’'],
    ['3 volts', 'quantity.unit at ‘volts’ → ‘V’'],
    ['12 V + 1 mA', 'quantity.dimension at ‘1 mA’'],
    ['', 'quantity.unreadable'],
  ])('not %s', (text, problem) => expect(problemsOf(readQuantity(text, MM), text)[0]).toContain(problem));
});
