/** Each way in which marks are written. */
import { MACHINE } from '../support/log.ts';

const INCHES = MACHINE.replace('machine: wren\n', 'machine: wren\nunits: in\n');
export const FORMS: readonly [name: string, station: string, cell: string, machine: string | undefined][] = [
  ['by stop', 'M2', 'marks: M2\nshots: {near: 1.5 right 2.0 down, far: 6.0 right 5.5 down}\n', undefined],
  ['blank, as the advice leaves it', 'M2', 'marks: M2\nshots:\n  near: \n  far: \n', undefined],
  ['blank, nothing behind the colon', 'M2', 'marks: M2\nshots:\n  near:\n  far:\n', undefined],
  ['blank before a remark', 'M2', 'marks: M2\nshots:\n  near: # dusty\n  far:   # hazy\n', undefined],
  [
    'a list with places',
    'M3',
    'marks: M3\nshots:\n  - {at: near, mark: }\n  - {at: far, with: {M2: far}, mark: 1 right 1 up}\n',
    undefined,
  ],
  [
    'a block list',
    'M3',
    'marks: M3\nshots:\n  - at: near\n    mark: 2 left 1 down size 4 mm shape oval\n  - at: far\n    with: {M2: far}\n    mark:\n',
    undefined,
  ],
  ['repeated shots', 'M1', 'marks: M1\nshots: {here: [1 right 1 up, 2 right 2 up]}\n', undefined],
  ['one bare mark', 'M1', 'marks: M1\nshots: centre # before lunch\n', undefined],
  ['quoted', 'M1', 'marks: M1\nshots: "1 right 2 up"\n', undefined],
  ['signed numbers', 'M2', 'marks: M2\nshots: {near: {right: 1, up: -2, shape: oval}, far: centre}\n', undefined],
  [
    'read from behind',
    'M2',
    'marks: M2\nseen: against beam\nshots: {near: 1 left 2 up, far: {right: 1, up: 2}}\n',
    undefined,
  ],
  [
    'an upright leg',
    'lens',
    'marks: lens\nshots:\n  - {at: here, mark: 1 rear 1 left}\n  - {at: here, with: {M2: far, M3: far}, mark: }\n',
    undefined,
  ],
  ['a machine in inches', 'M1', 'marks: M1\nshots: {here: 0.1 right 0.1 up}\n', INCHES],
  ['no end of line', 'M1', 'marks: M1\nshots: centre', undefined],
];
