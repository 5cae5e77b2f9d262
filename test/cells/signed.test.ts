/** The name of the person in new cells. */
import { expect, test } from 'vitest';
import { withName } from '../../src/cells/index.ts';

test.each([
  ['release: in service\nby: \n', 'release: in service\nby: Jo Vance\n'],
  ['release: in service\nby:\ndate: \n', 'release: in service\nby: Jo Vance\ndate: \n'],
  ['session: another look\n', 'session: another look\nby: Jo Vance\n'],
  ['session: another look', 'session: another look\nby: Jo Vance\n'],
  ['# why\nsession: x\nby: kt\n', '# why\nsession: x\nby: kt\n'],
  [
    'session: another look\n---\nmarks: M2\nshots: {near: , far: }\n',
    'session: another look\nby: Jo Vance\n---\nmarks: M2\nshots: {near: , far: }\n',
  ],
  ['marks: M2\nby: \n', 'marks: M2\nby: \n'],
  ['note: a session: b\n', 'note: a session: b\n'],
])('%j', (cells, expected) => expect(withName(cells, 'Jo Vance')).toBe(expected));

test('a name that YAML reads as something else is quoted; none leaves the blank', () => {
  const blank = 'release: in service\nby: \n';
  expect(withName(blank, 'no')).toContain('by: "no"\n');
  expect(withName(blank, 'kt: 2')).toContain('by: "kt: 2"\n');
  expect(withName(blank, '$& kt')).toContain('by: "$& kt"\n');
  expect(withName(blank, '  ')).toBe(blank);
});
