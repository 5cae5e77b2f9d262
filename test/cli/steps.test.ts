/**
 * The words of a step, its numbers and its cell agree; and the cell, appended when the step
 * is done, reads back without a finding.
 */
import fc from 'fast-check';
import { afterAll, describe, expect, test } from 'vitest';
import { nextAnswer, type NextAnswer } from './answers.ts';
import { LIMITS, LOGS, MACHINE } from './logs.ts';
import { folder, typed } from './terminal.ts';

const place = folder();
afterAll(() => place.remove());

function answered(text: string): NextAnswer {
  return nextAnswer(typed('next', '--json', place.file('log.alignbook.yaml', text)).out);
}

type Step = NextAnswer['steps'][number];

/** `Turn screw B of M1 out by 1 1/16 turn …` → −1.0625. */
function turnsInStep(say: string): number {
  const [, sense, amount] = /\b(in|out) by ((?:\d+ )?\d+(?:\/\d+)?) turn/.exec(say)!;
  const turns = amount!.split(' ').reduce(
    (sum, part) =>
      sum +
      part
        .split('/')
        .map(Number)
        .reduce((a, b) => a / b),
    0,
  );
  return sense === 'in' ? turns : -turns;
}

const AXES = {
  right: [1, 0, 0],
  left: [-1, 0, 0],
  rear: [0, 1, 0],
  front: [0, -1, 0],
  up: [0, 0, 1],
  down: [0, 0, -1],
} as const;

/** `Shift the tube 1.5 mm up 2 mm left …` → [−2, 0, 1.5], x right, y rear, z up. */
function shiftInStep(say: string): number[] {
  const parts = [...say.matchAll(/([\d.]+) mm (right|left|rear|front|up|down)\b/g)];
  return parts.reduce<number[]>(
    (sum, [, amount, word]) => sum.map((value, k) => value + Number(amount) * AXES[word as keyof typeof AXES][k]!),
    [0, 0, 0],
  );
}

function checkStep(step: Step): void {
  if (step.kind === 'turn') {
    expect(step.turns).not.toBe(0);
    expect(turnsInStep(step.say)).toBe(step.turns);
    expect(step.say).toContain(step.turns > 0 ? ' (clockwise' : ' (anticlockwise');
    expect(step.cell).toMatch(
      new RegExp(`^adjust: "?${step.part}"?\nturn: \\{"?${step.screw}"?: ${step.turns > 0 ? 'in' : 'out'} `),
    );
  }
  if (step.kind === 'shift') {
    expect(shiftInStep(step.say)).toEqual([step.x, step.y, step.z]);
    expect(shiftInStep(step.cell!.split('\n')[1]!)).toEqual([step.x, step.y, step.z]);
  }
  if (step.kind === 'shoot') expect(step.cell!.match(BLANK)).toHaveLength(step.shots.length);
}

/** Where a shoot's cell has a place for a mark. */
const BLANK = /(?<=: )(?=\}?\n)/g;

/** The log with every step done, its marks as given, and what is found in the new cells. */
function done(text: string, { steps }: NextAnswer, mark: string) {
  const cells = steps
    .flatMap(({ cell }) => cell ?? [])
    .map((cell) => cell.replace(/^by: $/m, 'by: kt').replaceAll(BLANK, mark));
  const extended = [text.replace(/\n?$/, '\n'), ...cells].join('---\n');
  const answer = answered(extended);
  const firstNew = text.replace(/\n?$/, '\n').split('\n').length - 1;
  const about = ({ code, range }: NextAnswer['findings'][number]) =>
    range.start.line >= firstNew && code !== 'mark.outside' && !code.startsWith('log.');
  return { extended, answer, found: answer.findings.filter(about).map(({ code, message }) => `${code} ${message}`) };
}

const MARKS = ['centre', '{right: 0.5, up: -0.5}', '[centre, centre]', 'none'];

describe('a printed cell reads back without findings', () => {
  test.each(Object.keys(LOGS))('%s', (name) => {
    const before = answered(LOGS[name]!);
    before.steps.forEach(checkStep);
    for (const mark of MARKS) expect(done(LOGS[name]!, before, mark).found).toEqual([]);
  });
});

test.each([
  ['a screw in', /in [\d/]+\}/],
  ['a screw out', /out [\d/]+\}/],
  ['more than a turn', /(in|out) \d+( \d+\/\d+)? turn\}/],
  ['two parts at once', /shift: [\d.]+ mm /],
  ['the tube', /shift: [\d.]+ mm (front|rear) [\d.]+ mm up/],
  ['a lock to loosen', /lock: loose/],
  ['a lock to tighten', /lock: tight/],
  ['the lens at two corners', /with: \{M2: far, M3: far\}/],
  ['tapes at two heights', /height: \d+ mm/],
  ['a leg in millimetres', /at: \d+ mm/],
  [
    'names that YAML 1.1 takes for truth values',
    /adjust: "y"\nturn: \{"n": in [^]*marks: M2\nshots:\n {2}"no": \n {2}"on": \n/,
  ],
  ['the same, at the corners of M3', /at: "on", with: \{"y": "on"\}/],
  ['all within', /release: in service/],
])('the log `%s` shows what it is there for', (name, expected) => {
  expect(
    answered(LOGS[name]!)
      .steps.map(({ cell }) => cell ?? '')
      .join('---\n'),
  ).toMatch(expected);
});

test('the amounts of a cell are those of the step, to the last digit', () => {
  const { steps } = answered(LOGS['more than a turn']!);
  for (const step of steps)
    if (step.kind === 'turn')
      expect(turnsInStep(step.cell!.replace(/: (in|out) ([\d/ ]*\d)( turn)?\}/, ' $1 by $2 turn'))).toBe(step.turns);
});

test('from random marks: steps match their words, cells read back, and the next advice follows', () => {
  const tenth = (most: number) => fc.integer({ min: -10 * most, max: 10 * most }).map((n) => n / 10);
  const mark = (most: number) =>
    fc.tuple(tenth(most), tenth(most)).map(([right, up]) => `{right: ${right}, up: ${up}}`);
  const marks = fc.record({
    M1: mark(4),
    near: mark(6),
    far: mark(9),
    M3: fc.tuple(mark(6), mark(9)),
    lens: fc.tuple(mark(3), mark(3)),
    upTo: fc.integer({ min: 1, max: 4 }),
  });
  fc.assert(
    fc.property(marks, ({ M1, near, far, M3, lens, upTo }) => {
      const shots = [
        `marks: M1\nshots: ${M1}\n`,
        `marks: M2\nshots: {near: ${near}, far: ${far}}\n`,
        `marks: M3\nshots: [{at: near, mark: ${M3[0]}}, {at: far, with: {M2: far}, mark: ${M3[1]}}]\n`,
        `marks: lens\nshots: [{mark: ${lens[0]}}, {with: {M2: far, M3: far}, mark: ${lens[1]}}]\n`,
      ];
      const text = [MACHINE, LIMITS, ...shots.slice(0, upTo)].join('---\n');
      const before = answered(text);
      before.steps.forEach(checkStep);
      expect(done(text, before, 'centre').found).toEqual([]);
    }),
    { numRuns: 25, seed: 20260314 },
  );
});
