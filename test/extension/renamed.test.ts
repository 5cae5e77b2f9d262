/** The name that a renamed workbook needs. */
import { expect, test } from 'vitest';
import { workbookName } from '../../src/extension/workbook-name.ts';

test.each([
  ['right.yaml', 'right.alignbook.yaml'],
  ['right.yml', 'right.alignbook.yaml'],
  ['right', 'right.alignbook.yaml'],
  ['right.alignbook', 'right.alignbook.yaml'],
  ['right.alignbook.yml', 'right.alignbook.yaml'],
  ['bay 2.1.yaml', 'bay 2.1.alignbook.yaml'],
  ['right.alignbook.yaml', undefined],
  ['notes.md', undefined],
  ['old.txt', undefined],
])('%s: %s', (name, expected) => expect(workbookName(name)).toBe(expected));
