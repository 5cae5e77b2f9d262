/** Answers for programs hold no `null`: what is not known is absent. For hostile files see `hostile.test.ts`. */
import fc from 'fast-check';
import { afterAll, describe, expect, test } from 'vitest';
import { jsonLine } from '../../src/cli/json-line.ts';
import { careHistory } from '../../src/history/index.ts';
import { entries } from '../support/entries.ts';
import { oneLine, unknowns } from './answers.ts';
import { MACHINE } from './logs.ts';
import { folder, typed } from './terminal.ts';

const place = folder();
afterAll(() => place.remove());

/** Neither the care record nor the answer of `care --json` holds one. */
function cared(...log: string[]): void {
  expect(unknowns(careHistory(entries(...log)))).toEqual([]);
  const { out } = typed('care', '--json', place.file('power.alignbook.yaml', log.join('---\n')));
  expect(unknowns(oneLine(out))).toEqual([]);
}

/** Readings of a power meter that no meter shows. */
const watts = fc.constantFrom('0', '60', '55', '0.001', '1e-9', '1e-160', '1e-308', '5e-324', '1e6');
const power = fc
  .tuple(fc.constantFrom('M1', 'M2', 'M3', 'lens'), fc.array(watts, { minLength: 1, maxLength: 3 }))
  .map(
    ([station, readings]) => `power: ${station}\nreading: [${readings.map((reading) => `${reading} W`).join(', ')}]\n`,
  );
const other = fc.constantFrom(
  'session: spring\ndate: 2026-03-14\n',
  'session: summer\n',
  'care: M1\ndid: cleaned in place\n',
  'care: lens\ndid: replaced\n',
  'event: moved\n',
);
const cells = fc.array(fc.oneof({ weight: 4, arbitrary: power }, other), { minLength: 2, maxLength: 12 });
const priors = fc.constantFrom(
  '',
  'priors: {powerReading: 1e-9, powerPlacing: 1e-9}\n',
  'priors: {powerReading: 1e9}\n',
);
const powerLog = fc.tuple(priors, cells).map(([own, log]) => [MACHINE + own, ...log]);

describe('care', () => {
  test('of a power that is next to nothing', () => {
    const turn = 'adjust: M1\nturn: {B: in 1/8}\n';
    cared(MACHINE, 'power: lens\nreading: 55 W\n', turn, 'power: lens\nreading: 1e-308 W\n');
  });

  test('of random power readings', () => {
    fc.assert(
      fc.property(powerLog, (log) => cared(...log)),
      { numRuns: 200 },
    );
  });
});

describe('the line', () => {
  test('leaves out what is not known, in objects and lists', () => {
    const list = [1, Infinity, undefined, null, { c: -Infinity, d: 0 }];
    const answer = { a: NaN, b: list, e: undefined, f: null, g: '\u2028', h: [[NaN]] };
    expect(jsonLine(answer)).toBe('{"b":[1,{"d":0}],"g":"\u2028","h":[[]]}');
  });

  test('of any answer holds no null', () => {
    const unknown = fc.constantFrom(NaN, Infinity, -Infinity, undefined, null);
    const answers = fc.object({ values: [fc.double(), unknown, fc.string()], maxDepth: 4 });
    fc.assert(
      fc.property(answers, (answer) => {
        expect(unknowns(oneLine(`${jsonLine(answer)}\n`))).toEqual([]);
      }),
    );
  });
});
