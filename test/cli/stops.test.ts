/** What stops the work, as the command line shows it: exit codes, the only steps, and the record. */
import { afterAll, expect, test } from 'vitest';
import { CENTRED, LIMITS, MACHINE } from '../support/log.ts';
import { folder, typed } from './terminal.ts';

const place = folder();
afterAll(() => place.remove());

const SHOT = [
  MACHINE,
  LIMITS,
  'session: service\ndate: 2026-05-04\n',
  'checks: make safe\ndone: [eyewear]\n',
  CENTRED.M1,
  CENTRED.M2,
  CENTRED.M3,
  CENTRED.lens,
];
const CRACKED = 'care: lens\nfound: cracked\ndid: inspected\n';
const RELEASE = 'release: in service\nby: kt\n';
const file = (name: string, ...cells: string[]) => place.file(`${name}.alignbook.yaml`, cells.join('---\n'));

test('a cracked lens: check ends with 1, and with 0 once it was replaced', () => {
  const cracked = typed('check', file('cracked', ...SHOT, CRACKED));
  expect(cracked.exit).toBe(1);
  expect(cracked.out).toContain(
    'error care.unfit lens was found cracked. Do not fire, turn or release until it is replaced.',
  );
  const replaced = typed('check', file('replaced', ...SHOT, CRACKED, 'care: lens\ndid: replaced\n'));
  expect(replaced.exit).toBe(0);
  expect(replaced.out).toContain('information care.unfit lens was found cracked. It was replaced.');
});

test('next advises only to replace it, with the caution about its dust', () => {
  const { out } = typed('next', file('stopped', ...SHOT, CRACKED));
  expect(out).toContain('BLOCKED');
  expect(out.replace(/\s+/g, ' ')).toContain('Replace lens: it was found cracked. | care: lens | did: replaced');
  expect(out).toContain('Zinc selenide');
  expect(out).not.toMatch(/Fresh tape|Turn screw|sign off the machine/);
  expect(JSON.parse(typed('next', file('stopped', ...SHOT, CRACKED), '--json').out)).toMatchObject({
    verdict: 'blocked',
    steps: [{ kind: 'care', part: 'lens', did: 'replaced', cell: 'care: lens\ndid: replaced\n' }],
  });
});

test('the record begins with it, and does not state that all is within limits', () => {
  const { out } = typed('report', file('signed', ...SHOT, CRACKED, RELEASE), '--markdown');
  expect(out).toContain('lens was found cracked. Do not fire, turn or release until it is replaced.');
  expect(out).not.toContain('Every station with limits was within limits');
  expect(typed('check', file('signed later', ...SHOT, CRACKED, RELEASE, 'care: lens\ndid: replaced\n')).exit).toBe(1);
});
