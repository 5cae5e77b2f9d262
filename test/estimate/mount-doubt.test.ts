/**
 * A mount that the workbook describes wrongly, in 24 ways: it is found out by what its screws do, and used as it is.
 */
import { describe, expect, test } from 'vitest';
import { alternatives } from '../../src/machine/mount-doubt.ts';
import { system } from '../../src/machine/system.ts';
import type { LogEntry } from '../../src/model/index.ts';
import { Logged } from '../simulation/logged.ts';
import { usualPlan } from '../simulation/world.ts';
import { CENTRED, codes, LIMITS, log, stepTexts } from '../support/log.ts';

const PLAN = usualPlan(20);
const ONLY_M2 = LIMITS.replace(/^ {2}(M3|lens): .*\n/gm, '');

describe('one response alone', () => {
  const m2 = (near: string, far: string) => `marks: M2\nshots: {near: ${near}, far: ${far}}\n`;
  const first = [
    CENTRED.M1,
    m2('0.9 right 0 up', '5.6 right 0 up'),
    'adjust: M1\nturn: {B: in 1/8}\n',
    m2('1.4 right 0 up', '8.4 right 0 up'),
  ];

  test('may be a slip: the mark is requested again, nothing is turned, and no mount is reported as wrong', () => {
    const evaluation = log(...first);
    expect(stepTexts(evaluation)).toEqual(['shoot M2 far']);
    expect(codes(evaluation.findings)).not.toContain('mount.contradicted');
  });

  test('a confirmed response is used, and the next turn is small', () => {
    const evaluation = log(...first, first.at(-1)!);
    const turns = evaluation.steps.flatMap((step) => (step.kind === 'turn' ? [step] : []));
    expect(turns.find(({ screw }) => screw === 'B')!.turns).toBeLessThan(0);
    expect(turns.every((step) => Math.abs(step.turns) <= 1 / 4)).toBe(true);
    expect(codes(evaluation.findings)).not.toContain('mount.contradicted');
  });

  test('a second response reports the mount and the correction of its description', () => {
    const evaluation = log(
      ...first,
      first.at(-1)!,
      'adjust: M1\nturn: {B: out 1/8}\n',
      m2('0.9 right 0 up', '5.6 right 0 up'),
    );
    expect(evaluation.findings.find(({ code }) => code === 'mount.contradicted')).toMatchObject({
      cell: 0,
      facts: { mount: 'corner', fix: expect.any(String) },
    });
  });
});

test('the other descriptions of a mount: `in`, mirrored, each pair of names, twice and half the pitch', () => {
  const [{ entry }] = new Logged(PLAN, ONLY_M2).entries as readonly [LogEntry];
  const machine = entry.kind === 'machine' ? entry.machine : undefined;
  const kinds = (turned: string[]) => alternatives(system(machine!), new Set(turned)).map(({ kind }) => kind);
  expect(kinds(['M1'])).toEqual(['in', 'mirrored', 'A and B', 'A and C', 'B and C', 'pitch × 2', 'pitch × 0.5']);
  expect(kinds([])).toEqual([]);
});
