/** What is not a message of the other end is not listened to. */
import { expect, test } from 'vitest';
import { isFromPanel, isToPanel } from '../../src/model/index.ts';

test.each([
  [{ type: 'ask' }, true],
  [
    {
      type: 'ask',
      of: 'file:///a',
      station: 'M2',
      round: 2,
      turns: [{ part: 'M1', screw: 'A', turns: 0.25 }],
      legs: { M2: 300 },
      visits: true,
    },
    true,
  ],
  [{ type: 'ask', visits: 'yes' }, false],
  [{ type: 'select', cell: 3, path: 'shots/near' }, true],
  [{ type: 'place', cell: 3, path: 'shots/near', right: 1, up: -2 }, true],
  [{ type: 'addStep' }, true],
  [{ type: 'addTried' }, true],
  [undefined, false],
  [null, false],
  [7, false],
  ['ask', false],
  [{}, false],
  [[], false],
  [{ type: 'run', command: 'rm' }, false],
  [{ type: 'ask', station: 7 }, false],
  [{ type: 'ask', turns: 'all' }, false],
  [{ type: 'ask', turns: [{ part: 'M1', screw: 'A', turns: NaN }] }, false],
  [{ type: 'ask', turns: [null] }, false],
  [{ type: 'ask', legs: { M2: '300' } }, false],
  [{ type: 'ask', legs: null }, false],
  [{ type: 'select', cell: 1.5, path: 'shots' }, false],
  [{ type: 'select', cell: 3, path: 'shots//near' }, false],
  [{ type: 'place', cell: 3, path: 'shots/~', right: 1, up: -2 }, false],
  [{ type: 'place', cell: 3, path: 'shots/near', right: Infinity, up: 0 }, false],
  [{ type: 'place', cell: 3, path: 'shots/near', right: '1', up: 0 }, false],
])('to the extension: %j', (said, is) => expect(isFromPanel(said)).toBe(is));

test.each([
  [{ type: 'sheet', uri: 'file:///a', file: 'a', sheet: null }, true],
  [{ type: 'selected', mark: null }, true],
  [{ type: 'selected', mark: { cell: 1, path: 'shots' } }, true],
  [null, false],
  [{ type: 'sheet' }, false],
  [{ type: 'sheet', uri: 'file:///a', file: 'a', sheet: 'x' }, false],
  [{ type: 'selected' }, false],
  [{ type: 'selected', mark: { cell: 1, path: '/shots' } }, false],
  [{ type: 'selected', mark: { path: 'shots' } }, false],
  [{ command: 'theme' }, false],
])('to the page: %j', (said, is) => expect(isToPanel(said)).toBe(is));
