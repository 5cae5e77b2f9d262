/** The history of a machine, by command. */
import { afterAll, describe, expect, test } from 'vitest';
import { sampled } from '../support/amount.ts';
import { HOSTILE } from './hostile.ts';
import { LIMITS, LOGS, MACHINE } from './logs.ts';
import { oneLine } from './answers.ts';
import { folder, typed, typist } from './terminal.ts';

const SAFE = 'checks: make safe\ndone: [eyewear]\n';
const place = folder();
afterAll(() => place.remove());
const file = (name: string, ...cells: string[]) => place.file(`${name}.alignbook.yaml`, cells.join('---\n'));

describe('care', () => {
  const log = file(
    'care',
    MACHINE,
    'session: one\ndate: 2026-01-31\n',
    SAFE,
    'care: M1\nfound: dusty\ndid: cleaned in place\nwith: "air\\e[2J"\n',
    'power: M1\nreading: 80 W\n',
    'power: M2\nreading: 60 W\n',
  );

  test('for people', () => {
    const { exit, out } = typed('care', log);
    expect(exit).toBe(0);
    expect(out).toBe(`${log}

M1        2026-01-31: found dusty, cleaned in place with air\\u001b[2J

POWER
  M1      2026-01-31: 80.0 ± 2.3 W
  M2      2026-01-31: 60.0 ± 1.7 W

TRANSMISSION
  M1      2026-01-31: 75.0 ± 3.0 %
`);
  });

  test('for programs, one line a file, read or not', () => {
    const { exit, out } = typed('care', '--json', log, 'nowhere.yaml');
    const [read, unread] = out.split(/(?<=\n)/).map((line) => oneLine(line) as Record<string, unknown>);
    expect(exit).toBe(2);
    expect(read).toMatchObject({
      format: 1,
      file: log,
      parts: [{ part: 'M1', cares: [{ found: 'dusty' }] }],
      transmissions: [{ through: ['M1'], value: 0.75 }],
      findings: [{ code: 'power.loss' }],
    });
    expect(unread).toMatchObject({ file: 'nowhere.yaml', parts: [], findings: [{ code: 'file.unreadable' }] });
    expect(out).not.toContain('null');
  });

  test('of a log without an entry about it', () =>
    expect(typed('care', file('nothing', MACHINE)).out).toContain('This log has no care and no power reading.'));
});

describe('sessions', () => {
  const visit = (date: string, far: string) => [
    `session: look\ndate: ${date}\nby: jv\n`,
    SAFE,
    `marks: M2\nshots: [{at: near, mark: centre}, {at: 385 mm, mark: centre}, {at: far, mark: ${far}}]\n`,
  ];
  const log = file(
    'sessions',
    MACHINE,
    LIMITS,
    ...visit('2026-01-01', 'centre'),
    ...visit('2026-03-01', '1 right 0 up'),
    'adjust: M1\nturn: {B: in 1/16}\n',
    'marks: M2\nshots: {near: centre, far: 0.5 left 0 up}\n',
    ...visit('2026-05-01', '1 right 0 up'),
  );

  test('for people', () => {
    const { exit, out } = typed('sessions', log);
    expect(exit).toBe(0);
    expect(out).toMatch(
      /^Session 2: look, 2026-03-01, by jv\n {2}M2 {6}as found: 1\.0 ± 0\.2 mm from the centre\s+\(gantry\s+far\s+from\s+M1,\s+front\),\s+1\.0\s+±\s+0\.3\s+mm\s+apart;\s+within\s+limits\s+\(probability\s+within\s+(?:>\s+)?\d\d\s+%\)\n {10}as left: [^]*?\n {10}drift since session 1, 59 days: gantry far from M1 \(front\)\s+1\.0\s+right\s+\(machine\s+left\)/m,
    );
    expect(out).toMatch(/^FORECAST\n {2}M2 {6}From 2026-\d\d-\d\d on it is no longer within 2 mm with 90 %/m);
  });

  test('without limits nothing is within, and nothing borderline', () => {
    const { out } = typed('sessions', file('no limits', MACHINE, ...visit('2026-01-01', '3 right 0 up')));
    expect(out).toMatch(/;\s+no\s+limits\n/);
    expect(out).not.toContain('borderline');
  });

  test('for programs, one line a file, read or not', () => {
    const { exit, out } = typed('sessions', '--json', log, 'nowhere.yaml');
    const [read, unread] = out.split(/(?<=\n)/).map((line) => oneLine(line) as Record<string, unknown>);
    expect(exit).toBe(2);
    expect(read).toMatchObject({
      format: 1,
      file: log,
      sessions: [
        { number: 1, title: 'look' },
        { stations: [{}, { name: 'M2', drift: { since: 1, days: 59 } }, {}, {}] },
        {},
      ],
      forecasts: [{ station: 'M2', intervals: 2 }],
      findings: [],
    });
    expect(unread).toMatchObject({
      file: 'nowhere.yaml',
      sessions: [],
      forecasts: [],
      findings: [{ code: 'file.unreadable' }],
    });
  });

  test('of a log without any', () =>
    expect(typed('sessions', file('nothing', MACHINE)).out).toContain('This log has no session.'));
});

/** Words of a computer, where a person reads; a user's own text, in backticks or as a name, may hold them. */
const COMPUTER_WORDS = /\bNaN\b|Infinity|\bundefined\b|\[object/;
const unquoted = (text: string) => text.replaceAll(/`[^`]*`/g, '');
/** Three times in one file, the last at a day before the others, so that there is something to compare. */
const thrice = (text: string) =>
  `${text}---\nsession: again\ndate: 2026-02-01\n---\n${text}---\npower: M1\nreading: [0 W, 1e300 W]\n---\npower: M2\nreading: 1e-300 W\n---\nsession: a last time\ndate: 2026-01-01\n---\n${text}`;

test.each(sampled(Object.entries({ ...LOGS, ...HOSTILE }).filter(([, text]) => text.length < 50_000)))(
  'a calm answer whatever the log holds: %s',
  (_, text) => {
    const log = file('hostile', thrice(text.endsWith('\n') ? text : `${text}\n`));
    const type = typist();
    for (const command of ['care', 'sessions']) {
      const { exit, out } = type(command, log);
      expect(unquoted(out)).not.toMatch(COMPUTER_WORDS);
      const json = type(command, '--json', log);
      expect(json.exit).toBe(exit);
      expect(oneLine(json.out)).toMatchObject({ format: 1 });
      // An unknown number is written as null.
      expect(json.out).not.toMatch(/[:[,]null\b/);
    }
  },
);
