/**
 * Why a move and not a simpler one: what is said of the simpler one is so, as far as trying it out on the machine
 * itself can tell.
 */
import { describe, expect, test } from 'vitest';
import { evaluate } from '../../src/evaluation/index.ts';
import { Logged } from '../simulation/logged.ts';
import { usualPlan } from '../simulation/world.ts';
import { CENTRED, evaluated, LIMITS, log, stepTexts } from '../support/log.ts';

const { M1, M2 } = CENTRED;
const PLAN = usualPlan(10);

describe('the simpler move in the reason', () => {
  const single = (shots: string) => log(M1, `marks: M2\nshots: {${shots}}\n`);

  test('of one screw: none', () => {
    const result = single('near: 0.4 right 0 up, far: 2.8 right 0 up');
    expect(stepTexts(result)[0]).toMatch(/^turn M1 B/);
    expect(result.steps[0]!.why).not.toContain('alone');
  });

  test('of two screws of a mirror: one of them', () => {
    const result = single('near: 0.9 right 0.9 down, far: 5.5 right 5.5 down');
    expect(result.steps.filter(({ kind }) => kind === 'turn')).toHaveLength(2);
    expect(result.steps[0]!.why).toMatch(
      /The screws of M1 aim the beam at M\d\. One screw alone would leave the marks? on M2 [\d.]+ mm (off centre|apart) \(limit (2|1\.5) mm\)\. If the screws are turned/,
    );
  });

  test('of a tube that is moved for M1: the mirror’s screws never move the mark on it', () => {
    expect(log('marks: M1\nshots: 0 right 4.5 up\n').steps[0]!.why).toContain(
      'The mirror’s own screws never move the mark on it, so the tube must move. If',
    );
  });

  test('of a tube if nothing else can be moved: angles', () => {
    const machine = 'machine: bare\nsource: {fires: left}\npath: {nozzle: {leg: 100 mm, aperture: 10 mm}}\n';
    const result = evaluated(
      machine,
      'limits: fine\nstations: {nozzle: {centre: 1 mm}}\n',
      'marks: nozzle\nshots: 4 right 1 up\n',
    );
    expect(result.steps[0]!.why).toContain('No mirror is before it, so the tube must move. If');
  });

  test('of earlier mirrors: the last one', () => {
    const plates = [
      { right: 0.0002, up: -0.0004 },
      { right: 0.0018, up: -0.0047 },
      { right: 0, up: 0 },
    ].map((slopes) => ({ piston: 0, ...slopes }));
    const result = evaluate(
      new Logged(PLAN, LIMITS, { fault: { plates, tube: { right: -0.3, up: 0.4, turnRight: 0, turnUp: 0 } } })
        .shoot(0, 1, 2)
        .middles(1, 2).entries,
    );
    expect(stepTexts(result).join()).toMatch(/turn M1 .*turn M2 /);
    expect(result.steps[0]!.why).toMatch(
      /The screws of M1 and M2 aim the beam at M\d\. The screws of M2 alone would (leave the marks? on M\d [\d.]+ mm|have a chance of \d\d %)/,
    );
  });

  test('none if no move helps', () => {
    expect(
      log(M1, M2, 'marks: M3\nshots: [{at: near, mark: none}, {at: far, with: {M2: far}, mark: none}]\n').steps[0]!.why,
    ).not.toContain('alone');
  });
});
