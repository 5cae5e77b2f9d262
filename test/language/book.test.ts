/** A book that is edited is where it would be had it been opened so: whatever it took over from before. */
import { readFileSync, readdirSync } from 'node:fs';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { expect, test } from 'vitest';
import { hintsOf, type Book } from '../../src/language/index.ts';
import { MACHINE } from '../support/log.ts';
import { after, bookOf } from '../support/workbook.ts';

const state = (book: Book) => {
  const { verdict, steps, stations, expected } = book.evaluation();
  return { findings: book.findings(), hints: hintsOf(book, 0, book.text.length), verdict, steps, stations, expected };
};

/** The `k`th character that is a digit, a letter or a sign of YAML, another one. */
function edited(text: string, k: number): { text: string; edit: { start: number; end: number; length: number } } {
  const places = [...text.matchAll(/\d|[a-z](?= )|[{},:]|\n/g)];
  const { index: start, 0: old } = places[(k * 7919) % places.length]!;
  const put = /\d/.test(old) ? String((Number(old) + 1 + (k % 8)) % 10) : ['', 'x', old + old, '\n', '\n---\n'][k % 5]!;
  return {
    text: text.slice(0, start) + put + text.slice(start + 1),
    edit: { start, end: start + 1, length: put.length },
  };
}

const folder = new URL('../../examples/', import.meta.url);
test.each(readdirSync(folder).filter((name) => name.endsWith('.yaml')))(
  '%s, a sign at a time and back',
  (name) => {
    const text = readFileSync(new URL(name, folder), 'utf8');
    const book = bookOf(text);
    const before = state(book);
    for (let k = 0; k < 25; k++) {
      const { text: now, edit } = edited(text, k);
      book.change(now, edit);
      book.advance(() => false);
      expect(state(book), `edit ${k}`).toEqual(state(bookOf(now)));
      book.change(text, { start: edit.start, end: edit.start + edit.length, length: edit.end - edit.start });
      book.advance(() => false);
      expect(state(book), `back from ${k}`).toEqual(before);
    }
  },
  90_000,
);

test('how far the tube was shifted counts, who did it does not', () => {
  const text = after(
    'marks: M2\nshots: {near: 1.5 right 2 down, far: 6 right 5.5 down}\n',
    'adjust: tube\nshift: 1 mm up\nby: kt\n',
  );
  const book = bookOf(text);
  for (const [old, put] of [
    ['1 mm up', '3 mm up'],
    ['by: kt', 'by: mo'],
  ] as const) {
    const start = text.indexOf(old);
    book.change(text.replace(old, put), { start, end: start + old.length, length: put.length });
    book.advance(() => false);
    expect(state(book)).toEqual(state(bookOf(text.replace(old, put))));
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
  const book = bookOf(texts[0]!, files);
  for (const text of [...texts, ...texts.toReversed()]) {
    book.change(text);
    book.advance(() => false);
    const fresh = bookOf(text, files);
    expect(state(book)).toEqual(state(fresh));
    expect(book.workbook.borrows).toEqual(fresh.workbook.borrows);
  }
});

test('what is typed into a long workbook does not pile up in memory', () => {
  setFlagsFromString('--expose-gc');
  const collect = runInNewContext('gc') as () => void;
  const used = () => {
    collect();
    return process.memoryUsage().heapUsed / 1e6;
  };
  let text = Buffer.from(
    after('note: |\n  The gantry ran freely; its belts were tightened.\n---\n'.repeat(4000)),
  ).toString();
  const book = bookOf(text);
  let at = 0;
  const type = (times: number) => {
    for (let k = 0; k < times; k++) {
      // In another cell each time.
      at = text.indexOf('gantry', at + 1);
      text = `${text.slice(0, at)}x${text.slice(at)}`;
      book.change(text, { start: at, end: at, length: 1 });
      book.advance(() => false);
      book.findings();
    }
    return used();
  };
  const before = type(20);
  // The text alone is a quarter of a megabyte.
  expect(type(200) - before).toBeLessThan(5);
});
