/** Lock nuts: their state by the log, the advice, and the findings at a release. */
import { expect, test } from 'vitest';
import { listed } from '../../src/words/index.ts';
import { CENTRED, codes, evaluated, LIMITS, stepTexts, WITH_NUTS } from '../support/log.ts';
import { random } from '../simulation/random.ts';

const { M1, M2, M3, lens } = CENTRED;
const ALL = [M1, M2, M3, lens];
/** M1's screw B is an eighth off. */
const OFF = 'marks: M2\nshots: {near: 0.4 right 0 up, far: 2.8 right 0 up}\n';
const RELEASE = 'release: in service\nby: kt\n';
const nuts = (part: string, lock: string) => `adjust: ${part}\nlock: ${lock}\n`;
const turn = (part: string, amount = 'in 1/16', lock = '') =>
  `adjust: ${part}\nturn: {A: ${amount}}\n${lock && `lock: ${lock}\n`}`;
const log = (...cells: string[]) => evaluated(WITH_NUTS, LIMITS, ...cells);

/** Cell by cell: the states defined by the format, computed independently. */
test('any sequence of cells leaves the nuts in the state of the format', () => {
  const draw = random(5);
  const pick = <T>(of: readonly T[]): T => of[Math.floor(draw.uniform() * of.length)]!;
  let count = 0;
  for (let k = 0; k < 25; k++) {
    const cells: string[] = [];
    const known = new Map<string, string>();
    const turned = new Set<string>();
    for (let n = 0; n < 1 + 6 * draw.uniform(); n++) {
      const part = pick(['M1', 'M2']);
      const was = known.get(part);
      switch (pick(['lock', 'turn', 'turn and lock', 'event', 'session'])) {
        case 'lock': {
          const lock = pick(['loose', 'tight', 'found loose', 'found tight']);
          cells.push(nuts(part, lock));
          known.set(part, lock.replace('found ', ''));
          break;
        }
        case 'turn':
          cells.push(turn(part));
          known.set(part, was === 'loose' ? 'loose' : 'open');
          turned.add(part);
          break;
        case 'turn and lock': {
          const lock = pick(['loose', 'tight', 'found loose', 'found tight']);
          cells.push(turn(part, 'out 1/16', lock));
          known.set(part, { loose: 'loose', tight: 'tight', 'found loose': 'loose', 'found tight': 'open' }[lock]!);
          turned.add(part);
          break;
        }
        case 'event':
          cells.push('event: moved\n');
          known.clear();
          break;
        default:
          cells.push('session: next\n');
          turned.clear();
      }
    }
    const open = ['M1', 'M2'].filter((part) => known.has(part) && known.get(part) !== 'tight');
    const loose = codes(log(...cells, RELEASE).findings).includes('release.loose');
    expect(loose, cells.join('---\n')).toBe(open.length > 0);
    const done = log(...cells, ...ALL);
    expect(done.verdict, cells.join('---\n')).toBe(open.length > 0 ? 'continue' : 'within');
    if (open.length > 0)
      expect(
        stepTexts(done).filter((step) => step.startsWith('lock')),
        cells.join('---\n'),
      ).toEqual(open.map((part) => `lock ${part} tight`));
    else
      expect(done.steps.flatMap((step) => (step.kind === 'check' ? step.items : []))).toEqual([
        `lock nuts of ${listed(['M1', 'M2', 'M3'].filter((part) => !known.has(part)))} tight`,
      ]);
    const loosened = stepTexts(log(...cells, M1, OFF)).filter((step) => step === 'lock M1 loose');
    const needed = known.get('M1') !== 'loose' && !(known.get('M1') === 'open' && turned.has('M1'));
    expect(loosened.length > 0, cells.join('---\n')).toBe(needed);
    count++;
  }
  expect(count).toBe(25);
});
