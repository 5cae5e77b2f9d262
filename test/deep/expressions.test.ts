/** Random expressions, at every place where a workbook takes one: a value or a finding, and only arithmetic is run. */
import { afterAll, expect, test } from 'vitest';
import { checkAnswer } from '../cli/answers.ts';
import { LOGS } from '../cli/logs.ts';
import { folder, typed } from '../cli/terminal.ts';
import { randomOf } from '../server/random-edits.ts';
import { COUNT, LONGEST, SEED } from '../support/amount.ts';

const place = folder();
afterAll(() => place.remove());

const SHOT = LOGS['a screw in']!;
const PIECES = [
  '1',
  '2.5',
  '900 mm',
  '3/8 in',
  '1e308',
  '1e-300',
  '0',
  ' + ',
  ' - ',
  ' * ',
  ' / ',
  '^',
  '(',
  ')',
  'sqrt(',
  'M2.far',
  'M2.slope.right',
  ' ± 0.1 mm',
  ' ± -1 mm',
  '%',
  ' mrad',
  ' to mm',
  '!',
  '[1,2]',
  '{a:1}',
  ';',
  '=',
  'f(x)=x',
  'import("fs")',
  'eval("1")',
  'constructor',
  '__proto__',
  'i',
  'e',
  'pi',
  '"a"',
  '\\',
  '1:3',
  'random()',
  '²',
  '−',
  '·',
  '1,5',
  '. ',
  'mm',
  '_',
  '#',
  '`',
];
const PLACES: readonly (readonly [string, (sum: string) => string])[] = [
  ['a leg', (sum) => SHOT.replace('leg: 100 mm', `leg: ${sum}`)],
  ['an aperture', (sum) => SHOT.replace('aperture: 20 mm', `aperture: ${sum}`)],
  ['a limit', (sum) => SHOT.replace('centre: 2 mm', `centre: ${sum}`)],
  ['a mark', (sum) => SHOT.replace('2.8 right 0 up', sum)],
  ['scratch arithmetic', (sum) => `${SHOT}---\nwork: a\nv: ${sum}\n`],
  ['a reading', (sum) => `${SHOT}---\npower: lens\nreading: ${sum}\n`],
];

const LENGTHS = [
  '900 mm',
  '3/8 in',
  '0.5 mm',
  '12.25 mm ± 0.5 mm',
  '(1 + 2) * 3 mm',
  'sqrt(9) * 1 mm',
  '1 in',
  '2 * 5 mm',
];

/** Half of them are sums of lengths, which some places accept. */
function sumOf(random: () => number): string {
  const [from, between] = random() < 0.5 ? [LENGTHS, random() < 0.5 ? ' + ' : ' - '] : [PIECES, ''];
  return Array.from({ length: 1 + Math.floor(random() * 5) }, () => from[Math.floor(random() * from.length)]!).join(
    between,
  );
}

test(
  `${COUNT} sums in ${PLACES.length} places`,
  () => {
    let [accepted, refused] = [0, 0];
    for (let k = 0; k < COUNT; k++) {
      const sum = sumOf(randomOf(SEED * 5_000_011 + k));
      for (const [where, log] of PLACES) {
        const text = log(sum.includes('#') || /^[[{"`\\]/.test(sum) ? JSON.stringify(sum) : sum);
        expect(text, where).not.toBe(SHOT);
        const { out, exit } = typed('check', '--json', place.file('sums.alignbook.yaml', text));
        expect([0, 1], `SEED=${SEED}, ${where}: ${sum}`).toContain(exit);
        const { findings } = checkAnswer(out);
        if (findings.some(({ severity }) => severity === 'error')) refused++;
        else accepted++;
      }
    }
    expect(Math.min(accepted, refused)).toBeGreaterThan(0);
    console.log(`seed ${SEED}: ${COUNT} sums in ${PLACES.length} places: ${accepted} accepted, ${refused} refused`);
  },
  LONGEST,
);
