/** Workbooks in every state that the panel distinguishes, by what is to be done there. */
import { readFileSync } from 'node:fs';
import { CENTRED } from '../support/log.ts';
import { after } from '../support/workbook.ts';

function example(name: string, cells: number): string {
  const text = readFileSync(new URL(`../../examples/${name}.alignbook.yaml`, import.meta.url), 'utf8');
  return text.split(/^---$/m).slice(0, cells).join('---');
}

const VISIT = 'session: spring service\ndate: 2026-03-07\n';
const OUTSIDE = 'marks: M2\nshots: {near: 0.5 right 0.5 up, far: 2.5 right 3.0 down}\n';
export const ITEMS = ['Eyewear on everyone', 'Covers closed', 'Extraction on', 'Somebody watches'];

/** As it is while the marks are typed. */
export function read(near: string, far: string): string {
  return after(VISIT, CENTRED.M1, `marks: M2\nshots:\n  near: ${near}\n  far: ${far}\n`);
}

export const STATES = {
  'make safe': after(VISIT, `checks: make safe\nopen:\n${ITEMS.map((item) => `  - ${item}\n`).join('')}`),
  shoot: after(VISIT, CENTRED.M1),
  read: read('', ''),
  'read one': read('0.5 right 0.5 up', ''),
  turn: after(VISIT, CENTRED.M1, OUTSIDE),
  'turn, nuts': example('1-full-service', 13),
  'trial turn': example('3-unknown-mount', 6),
  borderline: example('1-full-service', 25),
  choose: after(
    VISIT,
    CENTRED.M1,
    'marks: M2\nshots:\n  - {at: near, mark: 0 right 0.5 up}\n  - {at: 410 mm, mark: 0.5 right 0.5 up}\n  - {at: far, mark: 1.5 right 0.5 up}\n',
  ),
  stale: after(VISIT, CENTRED.M1, OUTSIDE, 'adjust: M1\nturn: {A: in 1/8}\n'),
  blocked: after(VISIT, CENTRED.M1, OUTSIDE, 'care: M2\nfound: cracked\n'),
  unexplained: after(
    VISIT,
    CENTRED.M1,
    'marks: M2\nshots: {near: 0.5 left 0.5 down, far: 0.5 right 0.5 up}\n',
    'adjust: M1\nturn: {A: in 1/8}\n',
    'marks: M2\nshots: {near: 0.5 left 0.5 down, far: 7 left 7.5 up}\n',
  ),
  within: example('1-full-service', 31),
  released: example('1-full-service', 38),
} as const satisfies Readonly<Record<string, string>>;

export type State = keyof typeof STATES;
