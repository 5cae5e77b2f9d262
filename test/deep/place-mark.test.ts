/**
 * A mark placed on the picture is the mark that is read from the text afterwards, and nothing else of the text changes.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { placeMark, slotsOf } from '../../src/language/index.ts';
import { LIMITS, MACHINE } from '../support/log.ts';
import { bookOf, changed } from '../support/workbook.ts';
import { drawn } from '../support/amount.ts';
import { FORMS } from '../language/mark-forms.ts';

describe.each(FORMS)('%s', (_name, station, cell, machine) => {
  test.each([['\n'], ['\r\n']])('line ends %j', (end) => {
    const text = [machine ?? MACHINE, LIMITS, cell].join('---\n').replaceAll('\n', end);
    const slots = slotsOf(bookOf(text), station);
    expect(slots.length).toBeGreaterThan(0);
    fc.assert(
      fc.property(
        fc.nat(slots.length - 1),
        fc.double({ min: -9, max: 9, noNaN: true }),
        fc.double({ min: -9, max: 9, noNaN: true }),
        (k, right, up) => {
          const book = bookOf(text);
          const slot = slotsOf(book, station)[k]!;
          const changes = placeMark(book, slot, { right, up })!;
          const after = changed(text, changes);
          const now = slotsOf(bookOf(after), station)[k]!;
          expect({ right: now.right, up: now.up, label: now.label }).toEqual({
            right: halves(right),
            up: halves(up),
            label: slot.label,
          });
          // Only words of a mark are removed.
          for (const { start, end } of changes) expect(text.slice(start, end)).toMatch(/^["']?[\w .-]*["']?$/);
          expect(after.split(end).length).toBe(text.split(end).length);
          // Placing at the same point again changes nothing.
          expect(changed(after, placeMark(bookOf(after), now, { right, up })!)).toBe(after);
        },
      ),
      drawn(10),
    );
  });
});

function halves(value: number): number {
  return Math.round(value * 2) / 2 + 0;
}
