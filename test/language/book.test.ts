/** A book that is edited is where it would be had it been opened so: whatever it took over from before. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { MACHINE } from '../support/log.ts';
import { after, freshBook, shown } from '../support/workbook.ts';

test('how far the tube was shifted counts, who did it does not', () => {
  const text = after(
    'marks: M2\nshots: {near: 1.5 right 2 down, far: 6 right 5.5 down}\n',
    'adjust: tube\nshift: 1 mm up\nby: kt\n',
  );
  const book = freshBook(text);
  for (const [old, put] of [
    ['1 mm up', '3 mm up'],
    ['by: kt', 'by: mo'],
  ] as const) {
    const start = text.indexOf(old);
    book.change(text.replace(old, put), { start, end: start + old.length, length: put.length });
    book.advance(() => false);
    expect(shown(book)).toEqual(shown(freshBook(text.replace(old, put))));
  }
});

test('what a machine is taken from may be edited, above and below', () => {
  const files = {
    'wren.alignbook.yaml': MACHINE,
    'robin.alignbook.yaml': MACHINE.replace('machine: wren', 'machine: robin'),
  };
  const texts = [
    'machine: wren\nfrom: wren.alignbook.yaml\n---\nmarks: M2\nshots: {near: centre}\n---\nmachine: robin\nfrom: robin.alignbook.yaml\n---\nmarks: M3\nshots: {near: centre}\n',
    'machine: wren\nfrom: wren.alignbook.yaml\n---\nmarks: M2x\nshots: {near: centre}\n---\nmachine: robin\nfrom: robin.alignbook.yaml\n---\nmarks: M3\nshots: {near: centre}\n',
    'machine: wren\nfrom: none.alignbook.yaml\n---\nmarks: M2x\nshots: {near: centre}\n---\nmachine: robin\nfrom: robin.alignbook.yaml\n---\nmarks: M3\nshots: {near: centre}\n',
    'machine: wren\nfrom: wren.alignbook.yaml\n---\nmarks: M2\nshots: {near: centre}\n',
  ];
  const book = freshBook(texts[0]!, files);
  for (const text of [...texts, ...texts.toReversed()]) {
    book.change(text);
    book.advance(() => false);
    const fresh = freshBook(text, files);
    expect(shown(book)).toEqual(shown(fresh));
    expect(book.workbook.borrows).toEqual(fresh.workbook.borrows);
  }
});

test.each([1, 2, 7])('work in pieces, interrupted at every %d. chance and by edits, gives the same', (every) => {
  const example = (name: string) => readFileSync(`examples/${name}.alignbook.yaml`, 'utf8');
  const year = example('6-through-the-year');
  const files = { 'machines/bollard.alignbook.yaml': example('machines/bollard') };
  const session = year.lastIndexOf('---\nsession:');
  const texts = [year, year.replace(/^note:.*$/m, 'note: another'), year.slice(0, session), year];
  expect(new Set(texts).size).toBe(3);
  const book = freshBook('', files);
  let chances = 0;
  const isInterrupted = () => ++chances % every === 0;
  for (const text of texts) {
    book.change(text);
    // The next edit comes while the visits are judged.
    for (let pieces = 0; pieces < 12 / every; pieces++) book.advance(isInterrupted);
  }
  while (!book.advance(isInterrupted));
  expect(chances).toBeGreaterThan(20);
  expect(shown(book)).toEqual(shown(freshBook(year, files)));
});
