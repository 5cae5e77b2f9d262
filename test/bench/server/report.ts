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

/** Of sizes that a goal is set for. */
export function goals({ cells, parse, courses }: Measured): Goal[] {
  const [ours, peer] = [courses.get('alignbook')!, courses.get('yaml server')!];
  const faster = (key: keyof Course, what: string, bound: number): Goal => ({
    text: `${cells} cells: ${what} at least ${bound} × faster (${(peer[key] / ours[key]).toFixed(0)} ×)`,
    met: peer[key] >= bound * ours[key],
  });
  const below = (value: number, what: string, bound: number, unit: string): Goal => ({
    text: `${cells} cells: ${what} at most ${bound} ${unit} (${value.toFixed(value < 10 ? 1 : 0)})`,
    met: value <= bound,
  });
  const always = [
    below(ours.blockedStart, 'a hover during an edit near the start', 20, 'ms'),
    below(ours.blockedMachine, 'a hover during an edit of the machine', 20, 'ms'),
  ];
  if (cells === 1000) return [faster('editEnd', 'findings after a letter near the end', 30), ...always];
  if (cells < 10_000) return always;
  return [
    faster('editEnd', 'findings after a letter near the end', 100),
    ...always,
    ...(['hover', 'hoverAfterKey', 'completion', 'completionAfterKey'] as const).map((key) =>
      faster(key, ROWS.find(([row]) => row === key)![1], 50),
    ),
    below(ours.first, 'findings near the start after opening', 100, 'ms'),
    below(ours.opened / parse, 'all findings after opening', 3, '× parsing'),
    below(ours.memory / peer.memory, 'memory', 0.25, 'of the peer’s'),
  ];
}
