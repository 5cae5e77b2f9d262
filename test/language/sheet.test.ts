/** What the panel tells besides its figures. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { panelView } from '../../src/language/index.ts';
import { after, bookOf } from '../support/workbook.ts';

const read = (name: string) => readFileSync(`examples/${name}.alignbook.yaml`, 'utf8');

test('what drifted since the visit before, and where that leads', () => {
  const book = bookOf(read('6-through-the-year'), { 'machines/bollard.alignbook.yaml': read('machines/bollard') });
  expect(panelView(book, { station: 'M2', visits: true })!.drift).toEqual([
    expect.stringMatching(/^since session 2, 91 days: gantry far from M1 \(front\) 1\.0 right \(machine left\)/),
    expect.stringMatching(/no longer within 2\.5 mm with 90 % confidence/),
  ]);
  expect(panelView(book, { station: 'lens', visits: true })!.drift).toEqual([expect.stringMatching(/^No comparison/)]);
  expect(panelView(book, { station: 'M2' })).not.toHaveProperty('drift');
  expect([panelView(book, {})!.hasVisits, panelView(bookOf(after('session: one\n')), {})!.hasVisits]).toEqual([
    true,
    false,
  ]);
});

test('why, and the state of each station: incomplete marks are not called stale', () => {
  const halfShot = panelView(bookOf(after('marks: M1\nshots: centre\n', 'marks: M2\nshots: {near: 1 right}\n')), {})!;
  expect(halfShot.now.then).toContain('M2 was read in one direction only: up or down is missing.');
  expect(halfShot.stations.map(({ words }) => words)).toEqual(['within', 'incomplete', 'not shot', 'not shot']);
  const moved = panelView(bookOf(after('marks: M1\nshots: centre\n', 'event: bumped\n')), {})!;
  expect(moved.stations[0]).toMatchObject({ name: 'M1', state: 'stale', words: 'stale' });
});

test('how wide the beam is here, and at the lens the spot', () => {
  const book = bookOf(read('1-full-service'));
  expect(panelView(book, { station: 'M2' })!.light).toEqual([
    expect.stringMatching(/^gantry near M1 \(rear\): 6\.3 mm wide/),
    expect.stringMatching(/^gantry far from M1 \(front\): 7\.3 mm wide/),
  ]);
  expect(panelView(book, { station: 'lens' })!.light.join('\n')).toMatch(
    /Spot diameter by diffraction: 0\.087 to 0\.128 mm/,
  );
  expect(panelView(bookOf(after()), { station: 'M1' })!.light).toEqual([]);
});

test('every mirror that is to be turned shows its screws, the one before the station that is shot first among them', () => {
  const book = bookOf(
    after(
      'marks: M1\nshots: 0.5 right 1.0 up\n',
      'marks: M2\nshots: [{at: near, mark: 0.5 right 0.5 down}, {at: 410 mm, mark: 0.5 right 0 up}, {at: far, mark: 0.5 right 0.5 down}]\n',
      'marks: M3\nshots:\n  - {at: near, with: {M2: near}, mark: 1 left 0.5 up}\n  - {at: far, with: {M2: far}, mark: 1.5 left 6 up}\n',
    ),
  );
  const turned = [...new Set(book.evaluation().steps.flatMap((step) => (step.kind === 'turn' ? [step.part] : [])))];
  expect(turned).toContain('M2');
  const mounts = panelView(book, {})!.mounts;
  expect(mounts.map(({ part }) => part)).toEqual(turned);
  for (const { screws } of mounts) expect(screws.some(({ turns }) => turns !== 0)).toBe(true);
});
