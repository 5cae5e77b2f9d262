/**
 * From an empty folder to a release in service without an editor: `new` by options, then `add` again and again, answered
 * by a person who does as told at a simulated machine, whose legs and screws the workbook knows only by guesses.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { adviceNow } from '../../src/language/index.ts';
import type { Step } from '../../src/model/index.ts';
import { nextAnswer } from '../cli/answers.ts';
import { asked, folder, typed } from '../cli/terminal.ts';
import { bookOf } from '../support/workbook.ts';
import { Engraver, type TapePlace } from './engraver.ts';
import { asFound } from './machines.ts';
import { random } from './random.ts';
import { inWords } from './technician.ts';
import { ordinary } from './workshop.ts';
import { LEGS, usualPlan } from './world.ts';

const SEED = Number(process.env['SEED'] ?? 1);
const MOST_ROUNDS = 80;

const place = folder();
afterAll(() => place.remove());

const PLAN = { ...usualPlan(20), locks: 'none' } as const;
const ELEMENTS = ['M1', 'M2', 'M3', 'lens'];
/** The workbook calls a screw by its corner. */
const SCREWS: Readonly<Record<string, string>> = { upper_left: 'A', lower_right: 'B', lower_left: 'C' };

const OPTIONS = [
  '--tube=rear-left',
  '--units=mm',
  '--travel=840 x 560',
  '--screws=3',
  '--empty-corner=upper-right',
  '--locks=none',
  '--nozzle=none',
  '--plumb=none',
];

type Shoot = Extract<Step, { kind: 'shoot' }>;

/** Where the carriages stand for a shot: those not named are near. */
function placesOf({ station, shots }: Shoot): TapePlace[] {
  return shots.map(({ at, with: others, height }) => {
    const leg = (name: 'M2' | 'M3') => {
      const stop = station === name ? at : others?.[name];
      return typeof stop === 'number' ? stop : stop === 'far' ? LEGS[name].far : LEGS[name].near;
    };
    return { carriages: { M2: leg('M2'), M3: leg('M3') }, height };
  });
}

/** Does a step at the machine. */
function obey(engraver: Engraver, step: Step): void {
  if (step.kind === 'turn') engraver.turn(ELEMENTS.indexOf(step.part), SCREWS[step.screw]!, step.turns);
  if (step.kind === 'shift')
    engraver.shift(step.part === 'tube' ? 'tube' : ELEMENTS.indexOf(step.part), step.by as [number, number, number]);
}

/** Types what `add` asks for, and does at the machine what it asks. */
function person(engraver: Engraver, text: string): (prompt: string) => string | undefined {
  const { steps: advised, ways } = adviceNow(bookOf(text));
  const steps = [...(ways ? ways[1]!.steps : advised)];
  let marks: string[] | undefined;
  return (prompt) => {
    if (prompt.startsWith('Which way')) return '2';
    if (prompt.startsWith('Done')) {
      const step = steps.shift()!;
      obey(engraver, step);
      return 'y';
    }
    if (prompt.startsWith('Signed off')) return 'jo vance';
    if (prompt.startsWith('Height')) return '';
    if (!marks) {
      const step = steps.shift() as Shoot;
      const station = ELEMENTS.indexOf(step.station);
      const runs = station === 0 ? PLAN.fires : PLAN.sends[station - 1]!;
      marks = engraver
        .shoot(station, placesOf(step))
        .map((mark) => (mark ? inWords(mark, runs, 'mm').replaceAll(/ (\w\w)\w+/g, '$1') : 'n'));
    }
    return marks.shift();
  };
}

test('new, then add until it is released', async () => {
  const engraver = new Engraver(PLAN, asFound(random(SEED)), ordinary(random(SEED + 1)));
  const file = join(place.path, 'trial.alignbook.yaml');
  expect(readdirSync(place.path)).toEqual([]);
  expect((await asked(['new', file, '--name=trial', ...OPTIONS], [])).exit).toBe(0);
  let rounds = 0;
  for (; rounds < MOST_ROUNDS; rounds++) {
    const before = readFileSync(file, 'utf8');
    if (/^release: in service$/m.test(before)) break;
    const { exit, out, error } = await asked(['add', file], person(engraver, before));
    expect([exit, error], before).toEqual([0, '']);
    const after = readFileSync(file, 'utf8');
    expect(after.startsWith(before)).toBe(true);
    expect(after.length, `${out}\n${before}`).toBeGreaterThan(before.length);
  }
  const text = readFileSync(file, 'utf8');
  console.log(
    `seed ${SEED}: released after ${rounds} times \`add\`, ${engraver.shots} tapes, ${engraver.adjustments} adjustments`,
  );
  expect(text.endsWith('release: in service\nby: jo vance\n')).toBe(true);
  expect(nextAnswer(typed('next', '--json', file).out)).toMatchObject({ verdict: 'within', steps: [] });
  expect(typed('check', file).exit).toBe(0);
  expect(readdirSync(place.path)).toEqual(['trial.alignbook.yaml']);
});
