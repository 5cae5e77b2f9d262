/** One good workbook for many tests, and the reading of any text. */
import { createReader, expressions, visibleFindings, type ReadFile } from '../../src/workbook/index.ts';
import { threads } from './threads.ts';

export const MACHINE = `machine: lark
title: 60 W engraver
source: {power: 60 W, beam: {diameter: 5 mm, divergence: 4 mrad, M2: 1.1}, fires: left, holders: {exit: 100, tail: 900}}
path:
  M1: {leg: 110 mm, aperture: 20 mm, sends: front, mount: corner}
  M2: {rides: gantry, stops: {near: 150 mm, far: 610 mm}, aperture: 20 mm, sends: right, mount: learnt}
  M3: {rides: head, stops: {near: 80 mm, far: 820 mm}, aperture: 18 mm, sends: down}
  lens: {leg: 55 mm ± 1 mm, aperture: 18 mm, focal: 50.8 mm}
mounts:
  corner:
    screws: {A: {right: -20, up: 20}, B: {right: 20, up: -20}, C: {right: -20, up: -20}}
    thread: M4
    in: toward beam
    knob: 14 mm
  learnt: {screws: {A: {}, B: {}}}
`;

export const GOOD = `${MACHINE}---
limits: workshop
stations: {M1: {centre: 3 mm}, M2: {centre: 2 mm, spread: 1.5 mm}, lens: {centre: 1.5 mm, plumb: 3 mrad}}
---
session: spring service
date: 2026-04-11
by: mo
---
marks: M2
shots:
  near: 1.5 right 2.0 down
  far: [6.0 right 5.5 down, 6.5 right 5.5 down]
---
adjust: M1
turn: {B: in 1/4}
---
marks: lens
shots:
  - {with: {M2: far, M3: far}, mark: {right: 1, up: -0.5}}
  - {mark: 1 right 0.5 front, height: 80 mm}
note: |
  Two tapes # and no comment
---
care: lens
did: cleaned in place
refit: {flat side: down}
---
release: in service
by: ana
`;

/** One for all tests, as an editor has one for all files: what it remembers must never show. */
const reader = createReader({ threads, expressions });

export function read(text: string, files: Readonly<Record<string, ReadFile>> = {}, file = 'lark.alignbook.yaml') {
  const workbook = reader.read(text, { file, files: new Map(Object.entries(files)) });
  const findings = visibleFindings(workbook, []);
  return {
    workbook,
    findings,
    codes: findings.map(({ code }) => code),
    entries: workbook.entries.map(({ entry }) => entry),
  };
}

/** The last entry of a cell below the good machine, without its spans. */
export function below(cell: string, machine = MACHINE) {
  const { entries, codes } = read(`${machine}---\n${cell}\n`);
  const { spans: _, ...entry } = entries.at(-1)!;
  return { entry, codes };
}
