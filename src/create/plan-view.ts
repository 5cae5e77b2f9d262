/** The machine seen from above, in characters, so that near and far are plain. */
import type { BeamPath } from './beam-paths.ts';

/** Lines of the drawing; you stand below it. */
export function planView({ fires, mirrors }: BeamPath): string[] {
  const [first] = mirrors;
  const seen = mirrors.length > 1 ? byGantry(first?.sends === 'rear') : FROM_GANTRY;
  const lines = fires === 'right' ? seen.map(mirrored) : seen;
  return lines.map((line) => line.replace('LEFT', 'left').replace('RIGHT', 'right').trimEnd());
}

/** Columns: a mirrored drawing keeps its middle. */
const WIDTH = 56;

/** M1 in the corner, its tube beside it; the beam leaves the tube to the left. */
function byGantry(fromFront: boolean): string[] {
  const [start, end, arrow] = fromFront ? ['front', 'rear', '^'] : ['rear', 'front', 'v'];
  const rows = [
    `${' '.repeat(28)}${start}`,
    '        M1 <===================== tube',
    '        |',
    `        |   near: the gantry at the ${start}`,
    '        |',
    '  LEFT  M2 ---- near ---- M3 ---- far ---->      RIGHT',
    '        |',
    `        |   far: the gantry at the ${end}`,
    `        ${arrow}`,
    `${' '.repeat(28)}${end}`,
  ];
  return fromFront ? rows.reverse() : rows;
}

/** The tube rides on the gantry; its beam leaves to the left. */
const FROM_GANTRY = [
  `${' '.repeat(28)}rear`,
  '  LEFT  <---- far ---- M1 <--- near ---- tube    RIGHT',
  `${' '.repeat(28)}front`,
];

/** Left and right exchanged, the words kept. */
function mirrored(line: string): string {
  return [...line.padEnd(WIDTH)]
    .reverse()
    .map((sign) => (sign === '<' ? '>' : sign === '>' ? '<' : sign))
    .join('')
    .replaceAll(/[A-Za-z0-9:]+(?: [A-Za-z0-9:]+)*/g, (words) => [...words].reverse().join(''))
    .replaceAll(/LEFT|RIGHT/g, (word) => (word === 'LEFT' ? 'RIGHT' : 'LEFT'));
}
