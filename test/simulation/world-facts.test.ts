/** The counts in the worlds' report: contradictions, lost marks, and risks taken by advice. */
import { expect, test } from 'vitest';
import type { Evaluation, Step } from '../../src/model/index.ts';
import { firstContradiction, losesMark } from '../bench/converge-world.ts';
import { harmIn } from '../bench/harm.ts';
import type { Round, ShotMark } from './technician.ts';
import { LEGS } from './world.ts';

const turn = (screw: string, turns: number, why?: string): Step => ({
  kind: 'turn',
  part: 'M1',
  screw,
  turns,
  say: `Turn ${screw}.`,
  ...(why !== undefined && { why }),
});
const shift: Step = { kind: 'shift', part: 'tube', by: [0, 0, 1], say: 'Move the tube.' };

function mark(
  station: string,
  right: number | 'none',
  {
    gantry = LEGS.M2.near,
    head = LEGS.M3.near,
    height,
    misread = 0,
  }: { gantry?: number; head?: number; height?: number; misread?: number } = {},
): ShotMark {
  return {
    station,
    place: { carriages: { M2: gantry, M3: head }, height },
    mark: right === 'none' ? null : { right, up: 0 },
    misread,
  };
}

const ODD = { unexplained: 1, chance: 0.9 };
const FINE = { unexplained: 0, chance: 0.9 };

function round(done: readonly Step[], marks: readonly ShotMark[], judged: Partial<Evaluation> = FINE): Round {
  return { evaluation: { ...judged } as Evaluation, done, marks };
}

test('two marks of one place contradict each other if reading explains them with a probability of less than 0.001', () => {
  // u² = 0.5²/12 + 0.25² of each part: exp(−d²/4u²) = 0.001 at d = 1.52 mm.
  const after = (second: number) =>
    firstContradiction([round([], [mark('M2', 0)]), round([], []), round([], [mark('M2', second)])]);
  expect([after(1.5), after(1.6)]).toEqual([undefined, 2]);
});

test('only marks of the same place count, with nothing moved between, and no tape on the bed', () => {
  const far = { gantry: LEGS.M2.far };
  expect(firstContradiction([round([], [mark('M2', 0), mark('M2', 5, far)])])).toBeUndefined();
  expect(firstContradiction([round([], [mark('M2', 0)]), round([turn('B', 1 / 8)], [mark('M2', 5)])])).toBeUndefined();
  expect(
    firstContradiction([round([], [mark('lens', 0, { height: 20 }), mark('lens', 5, { height: 20 })])]),
  ).toBeUndefined();
  // The position of the head does not move the tape on M2.
  expect(firstContradiction([round([], [mark('M2', 0), mark('M2', 5, { head: LEGS.M3.far })])])).toBe(0);
  expect(
    firstContradiction([
      round([turn('B', 1 / 8)], [mark('M3', 0)]),
      round([], [mark('M3', 1)]),
      round([], [mark('M3', 2)]),
    ]),
  ).toBe(2);
});

test('a lost mark counts if its place had one before, and the turned mirror had a measured response', () => {
  const start = round([], [mark('M2', 3), mark('M2', 8, { gantry: LEGS.M2.far })]);
  const respond = (far: number | 'none') =>
    round([turn('B', 1 / 4)], [mark('M2', 4), mark('M2', far, { gantry: LEGS.M2.far })]);
  const again = (far: number | 'none') => round([turn('B', 1 / 2)], [mark('M2', far, { gantry: LEGS.M2.far })]);
  expect(losesMark([start, respond('none'), again('none')])).toBe(false);
  expect(losesMark([start, respond(11), again('none')])).toBe(true);
  expect(losesMark([start, respond('none'), again(4), again('none')])).toBe(true);
  expect(losesMark([start, round([], [mark('M2', 'none')])])).toBe(false);
  // The first turn of another mirror may lose the mark.
  const other = round([{ ...turn('B', 1 / 2), part: 'M2' } as ReturnType<typeof turn>], [mark('M3', 'none')]);
  expect(losesMark([round([], [mark('M3', 3)]), respond(4), other])).toBe(false);
});

test('a tube that is moved while a mark is unexplained is counted, and one that is moved otherwise is not', () => {
  expect(harmIn([round([shift], [], ODD)])).toMatchObject({ moves: 1, bodies: 1, withChance: 1 });
  expect(harmIn([round([shift], [], FINE), round([turn('B', 1)], [], FINE)])).toMatchObject({
    moves: 2,
    bodies: 0,
    overturns: 0,
  });
});

test('a turn is bound by a quarter and by the last turn of that screw while a mark is unexplained', () => {
  const overturns = (before: Step, then: Step) => harmIn([round([before], [], FINE), round([then], [], ODD)]).overturns;
  expect(overturns(turn('A', 1 / 2), turn('B', 1 / 4))).toBe(0);
  expect(overturns(turn('A', 1 / 2), turn('B', -3 / 8))).toBe(1);
  expect(overturns(turn('B', 1 / 2), turn('B', -3 / 8))).toBe(0);
  expect(overturns(turn('B', 1 / 2), turn('B', -5 / 8))).toBe(1);
  expect(overturns(turn('B', 1 / 32), turn('B', 1 / 4))).toBe(0);
});

test('moves that may fail are counted with their reason', () => {
  const harm = harmIn(
    [0.85, 0.7, 0.4].map((chance) =>
      round([turn('B', 1 / 4, `The marks lie apart. Because ${chance}.`)], [], { ...FINE, chance }),
    ),
  );
  expect(harm).toMatchObject({
    below80: 2,
    below50: 1,
    reasons: ['below 80 %: Because 0.7.', 'below 50 %: Because 0.4.'],
  });
});

test('a trial turn has no probability and is in no count below a bound', () => {
  expect(harmIn([round([turn('B', 1 / 8)], [], { unexplained: 0 })])).toMatchObject({
    moves: 1,
    withChance: 0,
    below80: 0,
    below50: 0,
  });
});

test('moves on a mark that was misread are counted until its place is shot again', () => {
  const log = [
    round([], [mark('M2', 5, { misread: 6 })]),
    round([shift], []),
    round([turn('B', 1 / 4)], [mark('M2', 1)]),
    round([shift], []),
  ];
  expect(harmIn(log).misled).toEqual({ moves: 2, bodies: 1 });
});
