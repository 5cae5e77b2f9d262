/** The measured values as a table, and whether they meet the goals. */
import type { Course } from './course.ts';

export interface Measured {
  readonly cells: number;
  /** Parsing the text with `yaml`, ms. */
  readonly parse: number;
  readonly courses: ReadonlyMap<string, Course>;
}

export interface Goal {
  readonly text: string;
  readonly met: boolean;
}

/** The peer's delay before it processes a text, ms: reported separately, because it is not work. */
export const PEER_DELAY = 200;

const ROWS: readonly (readonly [key: keyof Course, title: string, waits?: boolean])[] = [
  ['first', 'open: findings near the start', true],
  ['opened', 'open: all findings', true],
  ['firstEdit', 'the first letter, near the end: findings', true],
  ['editEnd', 'a letter near the end: findings', true],
  ['editStart', 'a letter near the start: findings', true],
  ['blockedStart', '  longest hover meanwhile'],
  ['blockedMachine', '  … after an edit of the machine'],
  ['hover', 'hover'],
  ['hoverAfterKey', 'hover right after a key'],
  ['completion', 'completion'],
  ['completionAfterKey', 'completion right after a key'],
  ['memory', 'memory afterwards, MB'],
];

export function table({ cells, parse, courses }: Measured): string {
  const [empty, ours, peer] = ['empty server', 'alignbook', 'yaml server'].map((name) => courses.get(name));
  const lines = ROWS.map(([key, title, waits]) => {
    const own = ours?.[key];
    const work = peer && peer[key] - (waits ? PEER_DELAY : 0);
    return [
      title,
      number(empty?.[key]),
      number(own),
      work === undefined ? '' : `${number(work)}${waits ? ` + ${PEER_DELAY}` : ''}`,
      own === undefined || peer === undefined ? '' : `${(peer[key] / own).toFixed(peer[key] / own < 10 ? 1 : 0)} ×`,
    ];
  });
  const all = [[`${cells} cells, ms`, 'empty server', 'alignbook', 'yaml server', 'faster'], ...lines];
  const widths = all[0]!.map((_, column) => Math.max(...all.map((line) => line[column]!.length)));
  const shown = all.map((line) =>
    line.map((text, column) => (column === 0 ? text.padEnd(widths[0]!) : text.padStart(widths[column]!))).join('   '),
  );
  return `\n${shown.join('\n')}\n(parsing the text with yaml: ${parse.toFixed(0)} ms)\n`;
}

function number(value: number | undefined): string {
  return value === undefined ? '' : value.toFixed(value < 10 ? 1 : 0);
}

/** Cells up to which a workbook is of the usual size. */
const USUAL = 100;
/** Cells from which on it is a long one. */
const LONG = 10_000;

export function goals({ cells, parse, courses }: Measured): Goal[] {
  const [ours, peer] = [courses.get('alignbook')!, courses.get('yaml server')!];
  const atMost = (value: number, what: string, bound: number, unit: string): Goal => ({
    text: `${cells} cells: ${what} at most ${bound} ${unit} (${value.toFixed(value < 10 ? 1 : 0)})`,
    met: value <= bound,
  });
  const afterKey = (['hoverAfterKey', 'completionAfterKey'] as const).map((key) =>
    atMost(ours[key], ROWS.find(([row]) => row === key)![1], 10, 'ms'),
  );
  const meanwhile = [
    atMost(ours.blockedStart, 'a hover during an edit near the start', 50, 'ms'),
    atMost(ours.blockedMachine, 'a hover during an edit of the machine', 50, 'ms'),
  ];
  const opened = (bound: number) => atMost(ours.opened / parse, 'all findings after opening', bound, '× parsing');
  if (cells <= USUAL) return [opened(2), ...afterKey, ...meanwhile];
  if (cells < LONG) return [...afterKey, ...meanwhile];
  return [
    opened(1.5),
    atMost(ours.first, 'findings near the start after opening', 60, 'ms'),
    atMost(ours.firstEdit, 'findings after the first letter', 50, 'ms'),
    atMost(ours.editEnd, 'findings after a letter near the end', 15, 'ms'),
    ...afterKey,
    ...meanwhile,
    atMost(ours.memory, 'memory', 250, 'MB'),
    atMost(ours.memory / peer.memory, 'memory', 0.25, 'of the peer’s'),
  ];
}
