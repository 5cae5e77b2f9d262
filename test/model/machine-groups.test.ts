/** The machines in groups, and their names. */
import { expect, test } from 'vitest';
import { inGroups, namesOf, type ListedMachine, type ReadableMachine } from '../../src/model/index.ts';

const FACTS = { state: 'within', says: '', sentence: '', then: [], items: [] } as const;
const machine = (name: string, group: ReadableMachine['group'], on?: string, uri = `file:///${name}.alignbook.yaml`) =>
  ({ ...FACTS, name, group, uri, ...(on !== undefined && { on }) }) satisfies ListedMachine;
const unreadable: ListedMachine = { group: 'unreadable', says: '', uri: 'file:///old%20one.alignbook.yaml' };

test('groups come in the order of the work, each by day; what has no day is first, in service last', () => {
  const all = [
    unreadable,
    machine('tern', 'service'),
    machine('wren', 'service', '2026-09-02'),
    machine('heron', 'service', '2026-08-14'),
    machine('plover', 'needs', '2026-05-02'),
    machine('dory', 'needs'),
    machine('crane', 'due', '2026-06-01'),
    machine('snipe', 'practice'),
  ];
  expect(inGroups(all).map(({ group, machines }) => [group, ...machines.map((one) => namesOf(all).get(one))])).toEqual([
    ['needs', 'dory', 'plover'],
    ['due', 'crane'],
    ['service', 'heron', 'wren', 'tern'],
    ['practice', 'snipe'],
    ['unreadable', 'old one.alignbook.yaml'],
  ]);
  expect(inGroups([])).toEqual([]);
});

test('two machines of one name have their files beside it', () => {
  const all = [
    machine('dory', 'needs', undefined, 'file:///loft/a.alignbook.yaml'),
    machine('dory', 'needs', undefined, 'file:///b.alignbook.yaml'),
    machine('wren', 'needs'),
  ];
  expect([...namesOf(all).values()]).toEqual(['dory (a)', 'dory (b)', 'wren']);
});
