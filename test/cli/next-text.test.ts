/** How `next` says things to a person. */
import { afterAll, describe, expect, test } from 'vitest';
import { LOGS } from './logs.ts';
import { folder, typed } from './terminal.ts';

const place = folder();
afterAll(() => place.remove());

/** What `next` prints, line ends and indents taken out. */
function said(text: string): string {
  return typed('next', place.file('said.alignbook.yaml', text)).out.replaceAll(/\s+/g, ' ');
}

describe('a place is told by the carriages that stand there, not by the elements that ride on them', () => {
  test.each([
    ['a mark of one carriage', 'a screw in', 'mark gantry far: 2.8 right'],
    ['a mark of two carriages', 'a second corner', 'mark gantry near, head near: in the middle'],
    ['a tape that no carriage moves', 'a screw in', 'M1 within, over 99 % sure to be within Beam runs left; looking along it, right is the machine’s rear. mark in the middle'],
    ['a tape on the bed', 'out of plumb', 'mark gantry near, head near: 20 mm below'],
    ['where a limit is taken most', 'a screw in', '(gantry far), limit 2 mm'],
    ['what is wrong', 'a screw in', 'the mark is 2.8 mm from the middle (gantry far)'],
    ['a tape that was missed', 'a leg in millimetres', 'The beam misses the tape on M2 (gantry far).'],
    ['what to expect', 'a screw in', 'expect M2, gantry near: '],
    ['what to expect at a leg in millimetres', 'a leg in millimetres', /expect M2, gantry at \d+ mm: /],
    ['what to expect at a corner', 'the lens at two corners', 'expect lens, gantry near, head near: '],
    ['a carriage without a name: what rides on it', 'carriages without a name', 'mark M2 far: 2.8 right'],
  ] as const)('%s', (_, name, wanted) => {
    expect(said(LOGS[name]!)).toMatch(typeof wanted === 'string' ? new RegExp(wanted.replaceAll(/[.()]/g, '\\$&')) : wanted);
  });
});
