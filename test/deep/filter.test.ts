/** Estimates of long logs and cells: marks enter the filter once, and an early estimate is the same again. */
import { expect, test } from 'vitest';
import { runFilter } from '../../src/estimate/filter.ts';
import type { Segment, MarksEvent } from '../../src/estimate/segment.ts';
import { fold } from '../../src/estimate/fold.ts';
import { LIMITS, MACHINE, reader } from '../support/log.ts';

function entriesOf(...cells: string[]) {
  return reader.read(cells.join('---\n'), {
    file: 'test.alignbook.yaml',
    files: new Map(),
  }).entries;
}

const MIRRORS = Array.from({ length: 60 }, (_, k) => `M${k}`);
const MANY_MIRRORS = `machine: many\nsource: {fires: left}\npath:\n${MIRRORS.map((name, k) => `  ${name}: {leg: 100 mm, aperture: 20 mm, sends: ${k % 2 === 0 ? 'front' : 'left'}, mount: c}\n`).join('')}mounts: {c: {screws: {A: {right: -22, up: 22}, B: {right: 22, up: -22}, C: {right: -22, up: -22}}, thread: M4, in: toward beam}}\n`;

/** The first marks cell of a log. */
function firstRead(segment: Segment): MarksEvent {
  let first = segment.last!;
  for (let one: Segment | undefined = segment; one; one = one.earlier) first = one.last ?? first;
  while (first.before) first = first.before;
  return first as MarksEvent;
}

test('on the way through a long log of many mirrors the first marks enter the filter once', () => {
  const entries = entriesOf(
    MANY_MIRRORS,
    ...Array.from({ length: 310 }, (_, k) => `marks: ${MIRRORS[k % MIRRORS.length]}\nshots: 0.2 right 0.1 up\n`),
  );
  let state = fold(entries.slice(0, 2));
  const first = firstRead(state.segment!);
  const { validReadings } = first;
  let updates = 0;
  Object.defineProperty(first, 'validReadings', { get: () => (updates++, validReadings) });
  for (let k = 2; k < entries.length; k += 8) {
    runFilter(state.segment!);
    state = fold(entries.slice(k, k + 8), state);
  }
  expect(updates).toBe(1);
});

test('an early estimate is the same when it is requested again', () => {
  const entries = entriesOf(
    MACHINE,
    LIMITS,
    ...Array.from(
      { length: 2400 },
      (_, k) => `marks: M2\nshots: {near: 0.${k % 7} right 2.0 down, far: 1.${k % 5} right 1.5 down}\n`,
    ),
  );
  let state = fold(entries.slice(0, 140));
  const early = state.segment!;
  const then = runFilter(early);
  for (let k = 140; k < entries.length; k += 8) runFilter((state = fold(entries.slice(k, k + 8), state)).segment!);
  expect(runFilter(early)).not.toBe(then);
  expect(runFilter(early)).toEqual(then);
});
