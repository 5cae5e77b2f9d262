/**
 * Thread pitches and nuts against published tables.
 *
 * Sources: coarse pitches and widths across flats, BS EN ISO 4032:2001, table 1 (preferred sizes), as read in a public
 * reproduction and in two suppliers' tables; fine pitches, a public table after ISO 261 (a second one,
 * jiayuanfitting.com, gives the same under the title "ISO 262 selected sizes", which below 8 mm they are not, from
 * memory); threads per inch, public UNC/UNF tables after ASME B1.1. Rows "from memory" were not found in a text; their
 * pitch is 25.4/n all the same.
 */
import { describe, expect, test } from 'vitest';
import { nutFlats, threadPitch } from '../../src/optics/index.ts';

describe('ISO metric: coarse pitch, mm, and ISO 4032 across flats, mm', () => {
  test.each([
    ['M1.6', 0.35, 3.2],
    ['M2', 0.4, 4],
    ['M2.5', 0.45, 5],
    ['M3', 0.5, 5.5],
    ['M4', 0.7, 7],
    ['M5', 0.8, 8],
    ['M6', 1, 10],
    ['M8', 1.25, 13],
    ['M10', 1.5, 16],
    ['M12', 1.75, 18],
  ])('%s: %f, %f', (name, pitch, flats) => {
    expect(threadPitch(name)).toBe(pitch);
    expect(nutFlats(name)).toBe(flats);
  });
});

describe('ISO 261 fine pitch, mm; of these M8x1 alone is also in the selection of ISO 262 (from memory)', () => {
  test.each([
    ['M2x0.25', 0.25],
    ['M2.5x0.35', 0.35],
    ['M3x0.35', 0.35],
    ['M4x0.5', 0.5],
    ['M5x0.5', 0.5],
    ['M6x0.75', 0.75],
    ['M8x1', 1],
    ['M8x0.75', 0.75],
  ])('%s', (name, pitch) => expect(threadPitch(name)).toBe(pitch));
});

describe('UNC and UNF, mm from threads per inch', () => {
  test.each([
    ['4 UNC', '4-40 UNC', 0.635],
    ['4 UNF', '4-48 UNF', 0.529166667],
    ['6 UNC', '6-32 UNC', 0.79375],
    ['8 UNC', '8-32 UNC', 0.79375],
    ['8 UNF', '8-36 UNF', 0.705555556],
    ['10 UNC', '10-24 UNC', 1.058333333],
    ['1/4 UNC', '1/4-20 UNC', 1.27],
    ['1/4 UNF', '1/4-28 UNF', 0.907142857],
  ])('%s is %s', (series, name, pitch) => {
    expect(threadPitch(name)).toBeCloseTo(pitch, 9);
    expect(threadPitch(series)).toBe(threadPitch(name));
  });

  test.each([
    ['6 UNF', '6-40 UNF', 0.635],
    ['10 UNF', '10-32 UNF', 0.79375],
  ])('%s is %s (series from memory; the pitch is arithmetic)', (series, name, pitch) => {
    expect(threadPitch(name)).toBeCloseTo(pitch, 12);
    expect(threadPitch(series)).toBe(threadPitch(name));
  });
});
