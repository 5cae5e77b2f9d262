/** What the log says over time, by command. */
import { afterAll, describe, expect, test } from 'vitest';
import { MACHINE } from './logs.ts';
import { oneLine } from './answers.ts';
import { folder, typed } from './terminal.ts';

const place = folder();
afterAll(() => place.remove());
const file = (...cells: string[]) => place.file('record.alignbook.yaml', cells.join('---\n'));

describe('care', () => {
  const log = file(MACHINE, 'session: one\ndate: 2026-01-31\n', 'care: M1\nfound: dusty\ndid: cleaned in place\nwith: "air\\e[2J"\n', 'power: M1\nreading: 80 W\n', 'power: M2\nreading: 60 W\n');

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
    expect(read).toMatchObject({ format: 1, file: log, parts: [{ part: 'M1', cares: [{ found: 'dusty' }] }], transmissions: [{ through: ['M1'], value: 0.75 }], findings: [] });
    expect(unread).toMatchObject({ file: 'nowhere.yaml', parts: [], findings: [{ code: 'file.unreadable' }] });
    expect(out).not.toContain('null');
  });

  test('of a log that says nothing of it', () => expect(typed('care', file(MACHINE)).out).toContain('No care and no power reading is in this log.'));
});
