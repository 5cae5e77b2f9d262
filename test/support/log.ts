/** Short logs for tests: a machine of our own, and cells after it. */
import { evaluate } from '../../src/evaluation/index.ts';
import { threads } from '../../src/machine/index.ts';
import type { Evaluation, Finding, StationReport, Step } from '../../src/model/index.ts';
import { createReader, expressions } from '../../src/workbook/index.ts';

export const MACHINE = `machine: wren
source:
  wavelength: 10.6 um
  fires: left
path:
  M1: {leg: 90 mm, aperture: 20 mm, sends: front, mount: corner}
  M2: {rides: gantry, stops: {near: 130 mm, far: 690 mm}, aperture: 20 mm, sends: right, mount: corner}
  M3: {rides: head, stops: {near: 70 mm, far: 910 mm}, aperture: 18 mm, sends: down, mount: corner}
  lens: {leg: 60 mm, aperture: 18 mm, focal: 50.8 mm}
mounts:
  corner:
    screws:
      A: {right: -22 mm, up: 22 mm}
      B: {right: 22 mm, up: -22 mm}
      C: {right: -22 mm, up: -22 mm}
    thread: M4
    in: toward beam
    knob: 14 mm
    locks: none
`;

/** The same with lock nuts: the advice loosens and tightens them. */
export const WITH_NUTS = MACHINE.replace('locks: none', 'locks: nut');

export const LIMITS = `limits: workshop
stations:
  M1: {centre: 3 mm}
  M2: {centre: 2 mm, spread: 1.5 mm}
  M3: {centre: 2 mm, spread: 2.5 mm}
  lens: {centre: 1.5 mm}
reading: {resolution: 0.5 mm, placing: 0.2 mm}
confidence: 90 %
`;

/** Every station shot and centred, so that a test changes only its own subject. */
export const CENTRED = {
  M1: 'marks: M1\nshots: centre\n',
  M2: 'marks: M2\nshots:\n  - {at: near, mark: centre}\n  - {at: far, mark: centre}\n  - {at: 410 mm, mark: centre}\n',
  M3: 'marks: M3\nshots:\n  - {at: near, mark: centre}\n  - {at: far, with: {M2: far}, mark: centre}\n  - {at: far, mark: centre}\n  - {at: near, with: {M2: far}, mark: centre}\n  - {at: 490 mm, mark: centre}\n',
  lens: 'marks: lens\nshots:\n  - {at: here, mark: centre}\n  - {at: here, with: {M2: far, M3: far}, mark: centre}\n',
};

/** Of all tests that need no memory of their own: a cell that one of them has read is not read again. */
export const reader = createReader({ threads, expressions });

export function evaluated(...cells: string[]): Evaluation {
  const workbook = reader.read(cells.join('---\n'), {
    file: 'test.alignbook.yaml',
    files: new Map(),
  });
  const errors = workbook.findings.filter(({ code }) => !code.startsWith('name.quote'));
  if (errors.length > 0) throw new Error(`a test's own log is wrong: ${JSON.stringify(errors)}`);
  return evaluate(workbook.entries);
}

/** The same for a log that has mistakes in it on purpose. */
export function evaluatedWithMistakes(...cells: string[]): Evaluation {
  return evaluate(reader.read(cells.join('---\n'), { file: 'test.alignbook.yaml', files: new Map() }).entries);
}

/** Machine, limits, then the cells. */
export function log(...cells: string[]): Evaluation {
  return evaluated(MACHINE, LIMITS, ...cells);
}

export function stationOf({ stations }: Evaluation, name: string): StationReport {
  const named = stations.find((station) => station.name === name);
  if (!named) throw new Error(`no station ${name}`);
  return named;
}

export function states({ stations }: Evaluation): string {
  return stations.map(({ name, state }) => `${name} ${state}`).join(', ');
}

/** `turn M1 B in 0.25`, `shift tube 0,0,1.5`, `shoot M2 near far`. */
export function stepTexts({ steps }: Evaluation): string[] {
  return steps.map(briefly);
}

function briefly(step: Step): string {
  switch (step.kind) {
    case 'turn':
      return `turn ${step.part} ${step.screw} ${step.turns}`;
    case 'shift':
      return `shift ${step.part} ${step.by.join(',')}`;
    case 'lock':
      return `lock ${step.part} ${step.to}`;
    case 'shoot':
      return `shoot ${step.station} ${step.shots.map(({ at, with: others, height }) => [at, ...Object.entries(others ?? {}).map(([name, stop]) => `${name}=${stop}`), ...(height === undefined ? [] : [`height=${height}`])].join('/')).join(' ')}`;
    default:
      return step.kind;
  }
}

export function codes(findings: readonly Finding[]): string[] {
  return findings.map(({ code }) => code);
}
