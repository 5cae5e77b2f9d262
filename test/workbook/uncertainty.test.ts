/** A standard uncertainty is never negative, wherever one may be written. */
import { expect, test } from 'vitest';
import { bookOf } from '../support/workbook.ts';
import { MACHINE, read } from './sample.ts';

const changed = (from: string, to: string) => MACHINE.replace(from, to);
const below = (cell: string) => `${MACHINE}---\n${cell}\n`;

const PLACES: Readonly<Record<string, string>> = {
  'a leg': changed('leg: 110 mm', 'leg: 110 mm ± -1 mm'),
  'a stop': changed('near: 150 mm', 'near: 150 mm +- -1 mm'),
  'an aperture': changed('aperture: 20 mm', 'aperture: 20 mm ± (1 mm - 2 mm)'),
  'the power': changed('power: 60 W', 'power: 60 W ± -5 %'),
  'the beam’s diameter': changed('diameter: 5 mm', 'diameter: 5 mm ± -0.1 mm'),
  'M²': changed('M2: 1.1', 'M2: 1.1 ± -0.1'),
  'a screw’s place': changed('right: -20, up: 20', 'right: -20 ± -1, up: 20'),
  'a limit': below('limits: x\nstations: {M1: {centre: 3 mm ± -1 mm}}'),
  'the confidence': below('limits: x\nconfidence: 90 % ± -1 %'),
  'a mark': below('marks: M1\nshots: 1.5 ± -0.1 right 2 down'),
  'a mark as a map': below('marks: M1\nshots: [{mark: {right: 1.5 mm ± -0.1 mm}}]'),
  'a mark by the clock': below('marks: M1\nshots: 2 ± -1 at 3:00'),
  'a turn': below('adjust: M1\nturn: {A: in 1/4 ± -1/8}'),
  'a shift': below('adjust: tube\nshift: 1 mm ± -1 mm up'),
  'a power reading': below('power: M1\nreading: 60 W ± -1 W'),
  'scratch arithmetic': below('work: x\na: 1 mm ± -1 mm'),
  'a share in scratch arithmetic': below('work: x\na: 1 mm ± -5 %'),
  'an expression in scratch arithmetic': below('work: x\na: 1 mm\nb: a ± (a - 2 mm)'),
};

test.each(Object.entries(PLACES))('%s', (_, text) => {
  const { findings } = read(text);
  expect(findings.find(({ code }) => code === 'quantity.sign')?.facts).toMatchObject({ must: 'not negative' });
});

test('scratch arithmetic on what the log says', () => {
  const marks = below('marks: M2\nshots: {near: 1 right 1 up, far: 2 right 1 up}');
  const book = bookOf(`${marks}---\nwork: x\na: M2.slope.right ± -1 mrad\n`);
  expect(book.findings().map(({ code }) => code)).toContain('quantity.sign');
});

test('zero is allowed', () => {
  expect(read(below('work: x\na: 1 mm ± 0 mm')).codes).not.toContain('quantity.sign');
});
