/**
 * Whoever is told to fire or to move the tube is told first what can hurt them; whoever turns nothing but a page is
 * not.
 */
import { expect, test } from 'vitest';
import { cautionsAt } from '../../src/model/index.ts';
import { cautionsFor, createGuide, hoverAt, statusOf, wavelengthOf } from '../../src/language/index.ts';
import { CENTRED } from '../support/log.ts';
import { bookOf, after } from '../support/workbook.ts';

const cautions = cautionsAt();

test('before a shot the editor shows the cautions, ahead of the step, and defers to the manual', () => {
  const { full, steps } = statusOf(bookOf(after('session: spring\n')));
  expect(full).toContain(cautions.defer[0]);
  expect(full).toContain(cautions.fire[0]);
  expect(full.indexOf(cautions.defer[0]!)).toBeLessThan(full.indexOf(steps.at(-1)!.say));
});

test('before the tube is moved its voltage is named', () => {
  expect(cautionsFor([{ kind: 'shift', part: 'tube', by: [0, 0, 1], say: '' }]).lines).toEqual([
    ...cautions.tube,
    ...cautions.defer,
  ]);
  expect(cautionsFor([{ kind: 'lock', part: 'M1', to: 'tight', say: '' }]).lines).toEqual([]);
});

test('before the lens is taken out or put back, what zinc selenide is', () => {
  const shot = bookOf(after(CENTRED.M1, CENTRED.M2, CENTRED.M3)).evaluation();
  expect(shot.steps.map(({ kind }) => kind)).toEqual(['shoot']);
  expect(cautionsFor(shot.steps).lines).toEqual([...cautions.lens, ...cautions.fire, ...cautions.defer]);
  const done = bookOf(after(CENTRED.M1, CENTRED.M2, CENTRED.M3, CENTRED.lens)).evaluation();
  expect(cautionsFor(done.steps)).toEqual({ fires: false, lines: [...cautions.lens, ...cautions.defer] });
});

test('eyewear is required for the laser’s own wavelength in all cautions', () => {
  const book = bookOf(after('session: spring\n').replace('10.6 um', '9.3 um'));
  const { full } = statusOf(book);
  expect(full).toContain('Rated eyewear (9.3 µm) for everyone in the room.');
  expect(wavelengthOf(book)).toBeCloseTo(0.0093, 12);
  const { text } = hoverAt(book, createGuide(), book.text.lastIndexOf('session'))!;
  expect(text).toContain('(9.3 µm)');
  expect(statusOf(bookOf(after('session: spring\n'))).full).toContain('(10.6 µm)');
});
