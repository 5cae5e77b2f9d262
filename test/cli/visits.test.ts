/**
 * What has been signed stays as it was: whatever is written below an ended visit, and of whatever date, its findings,
 * its record and its part of `sessions` are the same to the byte (the hash and the revision of the file apart).
 */
import { afterAll, describe, expect, test } from 'vitest';
import { LIMITS, MACHINE } from './logs.ts';
import { folder, typed } from './terminal.ts';

describe('report --visit', () => {
  const place = folder();
  afterAll(() => place.remove());
  const visit = (name: string, mark: string) => [
    `session: ${name}\ndate: 2026-03-07\n`,
    `marks: M1\nshots: ${mark}\n`,
    'release: withdrawn\nby: kt\n',
  ];
  const file = place.file(
    'two.alignbook.yaml',
    [
      MACHINE,
      LIMITS,
      ...visit('spring', '1 right 0 up'),
      ...visit('autumn', '2 right 0 up'),
      'note: a tape was ordered\ndate: 2027-01-01\n',
    ].join('---\n'),
  );

  test('is of that visit; the last one is what it is without', () => {
    expect(typed('report', file, '--markdown', '--visit', '1').out).toMatch(/\| visit \| spring \|[^]*1\.0 ± 0\.2 mm/);
    expect(typed('report', file, '--markdown', '--visit', '2').out).toBe(typed('report', file, '--markdown').out);
    expect(typed('report', file, '--markdown').out).toContain('| visit | autumn |');
  });

  test('names the existing visits if there is no such one', () => {
    expect(typed('report', file, '--visit', '3')).toMatchObject({
      exit: 2,
      out: '',
      error: `alignbook: There is no visit 3 in ${file}: it has 2.\n`,
    });
    for (const wrong of ['0', 'two', '1.5'])
      expect(typed('report', file, '--visit', wrong)).toMatchObject({ exit: 2, out: '' });
    expect(typed('check', file, '--visit', '1')).toMatchObject({ exit: 2 });
  });
});

test('next shows what was noticed in the last visit, and errors; check shows all', () => {
  const place = folder();
  const off = 'marks: M2\nshots: {near: 5 right 0 up, far: 5 right 0 up}\n';
  const file = place.file(
    'noticed.alignbook.yaml',
    [MACHINE, LIMITS, 'session: one\n', off, 'marks: M1\nshots: 1 rigth 0 up\n', 'session: two\n', off].join('---\n'),
  );
  const lines = (out: string, code: string) =>
    [...out.matchAll(new RegExp(`:(\\d+):\\d+ \\w+\\s+${code.replace('.', '\\.')}`, 'g'))].length;
  const [check, next] = [typed('check', file).out, typed('next', file).out];
  expect([lines(check, 'log.height'), lines(next, 'log.height')]).toEqual([2, 1]);
  expect([lines(check, 'fire.unchecked'), lines(next, 'fire.unchecked')]).toEqual([2, 1]);
  expect([lines(check, 'mark.word'), lines(next, 'mark.word')]).toEqual([1, 1]);
  expect(JSON.parse(typed('next', '--json', file).out)).toMatchObject({
    findings: JSON.parse(typed('check', '--json', file).out).findings,
  });
  place.remove();
});
