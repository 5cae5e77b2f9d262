/** What stands beside the text is short; what is left out of it never misleads. */
import { expect, test } from 'vitest';
import { inOrderInOneLine } from '../../src/language/words/in-one-line.ts';

const steps = ['next: M1 A out 5/16', 'M1 B in 1/4', 'M1 C out 1/8', 'shoot M2 near (rear) and far (front)'];

test('no step is left out between two that are shown, and omitted ones are marked', () => {
  expect(inOrderInOneLine(steps, '; ')).toBe('next: M1 A out 5/16; M1 B in 1/4; M1 C out 1/8; …');
  expect(
    inOrderInOneLine(
      ['next: A in 1/4', 'a step with a name that is longer than all the room there is', 'shoot M2'],
      '; ',
    ),
  ).toBe('next: A in 1/4; …');
});

test('a text that fits is shown in full', () => {
  expect(inOrderInOneLine(steps.slice(0, 2), '; ')).toBe('next: M1 A out 5/16; M1 B in 1/4');
});

test('a first step that is too long is cut', () => {
  expect(inOrderInOneLine([`next: turn ${'x'.repeat(80)}`, 'shoot M2'], '; ')).toMatch(/^next: turn x+…$/);
});
