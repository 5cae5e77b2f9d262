/** When the whole-machine move is not offered. */
import { expect, test } from 'vitest';
import { log, states } from '../support/log.ts';

const M1 = 'marks: M1\nshots: centre\n';
const lens = 'marks: lens\nshots: [{mark: 2 right 0 rear}, {with: {M2: far, M3: far}, mark: 2 right 0 rear}]\n';
const M3 = (mark: string) =>
  `marks: M3\nshots: [{at: near, mark: centre}, {at: far, mark: centre}, {at: near, with: {M2: far}, mark: centre}, {at: 490 mm, mark: centre}, {at: far, with: {M2: far}, mark: ${mark}}]\n`;
const M2 = 'marks: M2\nshots: [{at: near, mark: centre}, {at: 410 mm, mark: centre}, {at: far, mark: centre}]\n';

test.each([
  ['where one station alone is not within', [M1, M2, M3('centre'), lens], 'M3 within, lens outside'],
  [
    'where the beam missed a tape',
    [M1, 'marks: M2\nshots: {near: centre, far: none}\n', M3('4 right 0 up'), lens],
    'M2 outside, M3 outside',
  ],
  ['where everything is within', [M1, M2, M3('centre'), lens.replaceAll('2 right', '0 right')], 'lens within'],
] as const)('%s', (_, cells, state) => {
  const evaluation = log(...cells);
  expect(states(evaluation)).toContain(state);
  expect(evaluation.whole).toBeUndefined();
});
