/**
 * The examples are read by people first: each must stay sound, come out as it says, and follow what the tool advises
 * today.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parseAllDocuments } from 'yaml';
import { findings as table } from '../../shared/findings.ts';
import { evaluate } from '../../src/evaluation/index.ts';
import { threads } from '../../src/machine/index.ts';
import { joinCells, splitCells } from '../../src/cells/index.ts';
import { evaluated } from '../../src/cli/evaluated.ts';
import type { AdjustEntry, Evaluation, LogEntry, Verdict } from '../../src/model/index.ts';
import { createReader, expressions, workbookSchema } from '../../src/workbook/index.ts';
import { stepTexts } from '../support/log.ts';
import { bookOf } from '../support/workbook.ts';
import { isValid, type JsonSchema } from '../workbook/json-schema.ts';

const folder = new URL('../../examples/', import.meta.url);
const MISTAKES = 'mistakes.alignbook.yaml';

interface Expected {
  readonly codes: readonly string[];
  readonly verdict: Verdict;
  /** Up to and including the first shot. */
  readonly steps: readonly string[];
  readonly states: string;
}

const EXPECTED: Readonly<Record<string, Expected>> = {
  '1-full-service.alignbook.yaml': {
    codes: [],
    verdict: 'within',
    steps: [],
    states: 'M1 within, M2 within, M3 within, lens within',
  },
  '2-new-tube.alignbook.yaml': {
    codes: [],
    verdict: 'within',
    steps: [],
    states: 'M1 within, M2 within, M3 within, lens within',
  },
  '3-unknown-mount.alignbook.yaml': {
    codes: [],
    verdict: 'within',
    steps: [],
    states: 'rear within, bridge within, carriage within, lens unlimited',
  },
  '4-inches.alignbook.yaml': {
    codes: ['mark.crescent'],
    verdict: 'continue',
    steps: ['shoot lens here/M2=near/M3=near here/M2=far/M3=far'],
    states: 'M1 within, M2 within, M3 within, lens unread, nozzle unlimited',
  },
  '5-missed.alignbook.yaml': {
    codes: [],
    verdict: 'continue',
    steps: ['shoot M2 220'],
    states: 'M1 within, M2 outside, M3 unread, lens unread, nozzle unlimited',
  },
  '6-through-the-year.alignbook.yaml': {
    codes: [],
    verdict: 'continue',
    steps: ['shoot M3 near/M2=near far/M2=far'],
    states: 'M1 within, M2 within, M3 unread, lens unread, nozzle unlimited',
  },
  'machines/bollard.alignbook.yaml': {
    codes: [],
    verdict: 'continue',
    steps: ['shoot M1 here'],
    states: 'M1 unread, M2 unread, M3 unread, lens unread, nozzle unlimited',
  },
};

const textOf = (name: string) => readFileSync(new URL(name, folder), 'utf8');
const pathOf = (name: string) => new URL(name, folder).pathname;
const names = readdirSync(folder, { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.alignbook.yaml'))
  .map((name) => name.replaceAll('\\', '/'))
  .sort();
const schema = workbookSchema() as JsonSchema;

test('every example is expected, and none is missing', () => {
  expect(names).toEqual([...Object.keys(EXPECTED), MISTAKES].sort());
});

test.each(names)('%s comes back byte for byte', (name) => {
  const split = splitCells(textOf(name));
  expect(split.cells.length).toBeGreaterThan(1);
  expect(joinCells(split)).toBe(textOf(name));
});

test.each(Object.entries(EXPECTED))('%s', (name, { codes, verdict, steps, states }) => {
  const { evaluation, findings } = evaluated(pathOf(name), { threads, expressions });
  const documents = parseAllDocuments(textOf(name)).map((document) => document.toJS() as unknown);
  expect(findings.map(({ code }) => code)).toEqual(codes);
  expect(documents.filter((document) => !isValid(schema, document))).toEqual([]);
  expect(evaluation?.verdict).toBe(verdict);
  expect(stepTexts(evaluation!).slice(0, shotIn(evaluation!))).toEqual(steps);
  expect(evaluation?.stations.map((station) => `${station.name} ${station.state}`).join(', ')).toBe(states);
});

function shotIn({ steps }: Evaluation): number {
  const shot = steps.findIndex(({ kind }) => kind === 'shoot');
  return shot < 0 ? steps.length : shot + 1;
}

test('the mistakes show every code but those that no saved file shows', () => {
  const { findings } = evaluated(pathOf(MISTAKES), { threads, expressions });
  const counts = new Map<string, number>();
  for (const { code } of findings) counts.set(code, (counts.get(code) ?? 0) + 1);
  const expected = Object.keys(table).filter((code) => code !== 'file.unreadable' && code !== 'cells.loneReturn');
  expect(expected.filter((code) => !counts.has(code))).toEqual([]);
});

/** Open steps are no mistake: a service in the right order gets no finding on the way, not even information. */
test('the full service hears no finding at any of its cells', () => {
  const { cells } = splitCells(textOf('1-full-service.alignbook.yaml'));
  const heard = cells.flatMap(({ start, text }) =>
    bookOf(textOf('1-full-service.alignbook.yaml').slice(0, start + text.length))
      .findings()
      .map(({ code }) => code),
  );
  expect(cells.length).toBeGreaterThan(30);
  expect(heard).toEqual([]);
});

/** Turns by `part.screw`, shifts by `part`, locks by `part.lock`, of one round of adjustments. */
type Moves = Record<string, number | string | readonly number[]>;

/** Those whose adjustments are all what was advised; in the others people do as people do. */
const ADVISED: Readonly<Record<string, readonly string[]>> = {
  '1-full-service.alignbook.yaml': ['M1.A', 'M1.B', 'M2.A', 'M2.B', 'M3.A', 'M1.lock', 'M2.lock', 'M3.lock'],
  '2-new-tube.alignbook.yaml': ['tube', 'M2.B'],
  '3-unknown-mount.alignbook.yaml': ['rear.top', 'rear.side'],
};

describe.each(Object.entries(ADVISED))('%s follows the advice', (name, moves) => {
  const { entries } = createReader({ threads, expressions }).read(textOf(name), { file: name, files: new Map() });
  const rounds = roundsOf(entries).filter(({ from }) =>
    entries.slice(0, from).some(({ entry }) => entry.kind === 'marks'),
  );

  test(`there are rounds, and ${moves.join(', ')} among them`, () => {
    const compared = rounds.flatMap(({ cells }) => Object.keys(done(cells)));
    expect(compared).toEqual(expect.arrayContaining([...moves]));
  });

  test.each(rounds.map((round) => [entries[round.from]!.cell, round] as const))('at cell %i', (_, { from, cells }) => {
    expect(done(cells)).toEqual(advised(evaluate(entries.slice(0, from))));
  });
});

/**
 * Adjust cells that follow each other, and the entry they begin at. Before the first marks they set the state as found.
 */
function roundsOf(entries: readonly LogEntry[]): { from: number; cells: AdjustEntry[] }[] {
  const rounds: { from: number; cells: AdjustEntry[] }[] = [];
  entries.forEach(({ entry }, k) => {
    if (entry.kind !== 'adjust') return;
    if (entries[k - 1]?.entry.kind === 'adjust') rounds.at(-1)!.cells.push(entry);
    else rounds.push({ from: k, cells: [entry] });
  });
  return rounds;
}

function done(cells: readonly AdjustEntry[]): Moves {
  return Object.assign(
    {},
    ...cells.map(
      ({ part, turns, shift, lock }): Moves => ({
        ...Object.fromEntries(Object.entries(turns).map(([screw, amount]) => [`${part}.${screw}`, rounded(amount)])),
        ...(shift && { [part]: shift.by.map(rounded) }),
        ...(lock && { [`${part}.lock`]: lock }),
      }),
    ),
  ) as Moves;
}

function advised(evaluation: Evaluation): Moves {
  return Object.fromEntries(
    evaluation.steps.slice(0, shotIn(evaluation)).flatMap((step): [string, Moves[string]][] => {
      if (step.kind === 'turn') return [[`${step.part}.${step.screw}`, rounded(step.turns)]];
      if (step.kind === 'shift') return [[step.part, step.by.map(rounded)]];
      return step.kind === 'lock' ? [[`${step.part}.lock`, step.to]] : [];
    }),
  );
}

/** Away with what binary fractions add, and with the sign of zero. */
function rounded(amount: number): number {
  return Math.round(amount * 1e9) / 1e9 + 0;
}
