/**
 * The answers of `--json` to the letter: every field that may stand there, and none besides. `null` stands nowhere:
 * what is not known is absent.
 */
import { expect } from 'vitest';
import * as z from 'zod';
import { typist } from './terminal.ts';

const finite = z.number();
const probability = z.number().min(0).max(1);
const place = z.union([z.string(), z.number()]);
const corner = z.record(z.string(), place);
const words = z
  .string()
  .min(1)
  .regex(/^(?![^]*(\bNaN\b|Infinity|\bundefined\b|\[object))/);
const position = z.strictObject({ line: z.int().min(0), character: z.int().min(0) });

const finding = z.strictObject({
  code: z.string().regex(/^[a-z]+\.[a-zA-Z]+$/),
  severity: z.enum(['error', 'warning', 'information', 'hint']),
  message: words,
  range: z.strictObject({ start: position, end: position }),
});

const requirement = z.strictObject({
  limit: z.enum(['centre', 'spread', 'plumb']),
  at: place.optional(),
  value: z.number().min(0).optional(),
  u: z.number().min(0).optional(),
  max: z.number().positive(),
  probability: probability.optional(),
});

const axes = { right: finite, up: finite };

const station = z.strictObject({
  name: z.string(),
  state: z.enum(['unlimited', 'unread', 'incomplete', 'stale', 'outside', 'borderline', 'within']),
  probability: probability.optional(),
  requirements: z.array(requirement),
  slope: z.strictObject({ ...axes, u: z.strictObject({ right: z.number().min(0), up: z.number().min(0) }) }).optional(),
});

const text = { say: words, cell: words.optional() };
const shot = z.strictObject({ at: place, with: corner.optional(), height: finite.optional() });

const step = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('turn'), part: z.string(), screw: z.string(), turns: finite, ...text }),
  z.strictObject({
    kind: z.literal('shift'),
    part: z.string(),
    x: finite,
    y: finite,
    z: finite,
    end: z.enum(['exit', 'tail']).optional(),
    ...text,
  }),
  z.strictObject({ kind: z.literal('lock'), part: z.string(), to: z.enum(['loose', 'tight']), ...text }),
  z.strictObject({ kind: z.literal('care'), part: z.string(), did: z.string(), ...text }),
  z.strictObject({ kind: z.literal('check'), items: z.array(z.string()), ...text }),
  z.strictObject({ kind: z.literal('repair'), ...text }),
  z.strictObject({ kind: z.literal('release'), ...text }),
  z.strictObject({ kind: z.literal('shoot'), station: z.string(), shots: z.array(shot).min(1), ...text }),
]);

const expected = z.strictObject({
  station: z.string(),
  at: place,
  with: corner,
  ...axes,
  u: z.strictObject({ right: z.number().positive(), up: z.number().positive(), r: z.number().min(-1).max(1) }),
  ellipse: z.strictObject({
    major: z.number().positive(),
    minor: z.number().positive(),
    angle: z.number().min(-1571).max(1571),
  }),
});

const unsure = z.number().positive();
const off = z
  .array(
    z.strictObject({
      toward: z.enum(['left', 'right', 'front', 'rear', 'up', 'down']),
      by: z.number().positive(),
      u: unsure,
    }),
  )
  .min(1)
  .max(2);

const learnt = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('screw'),
    part: z.string(),
    screw: z.string(),
    share: finite,
    u: unsure,
    say: words,
  }),
  z.strictObject({
    kind: z.literal('effect'),
    part: z.string(),
    screw: z.string(),
    turns: finite,
    station: z.string(),
    at: place,
    with: corner,
    ...axes,
    u: z.strictObject({ right: unsure, up: unsure }),
    say: words,
  }),
  z.strictObject({ kind: z.literal('tube'), off, say: words }),
  z.strictObject({ kind: z.literal('inclination'), off, say: words }),
  z.strictObject({ kind: z.literal('aperture'), station: z.string(), off, say: words }),
  z.strictObject({ kind: z.literal('rail'), element: z.string(), rides: z.string(), off, say: words }),
  z.strictObject({
    kind: z.literal('carriage'),
    element: z.string(),
    rides: z.string(),
    axis: z.enum(['x', 'y', 'z']),
    from: z.string(),
    to: z.string(),
    turn: finite,
    u: unsure,
    say: words,
  }),
]);

const head = { format: z.literal(1), file: z.string() };

const CheckAnswer = z.strictObject({ ...head, findings: z.array(finding) });

export const NextAnswer = z.strictObject({
  ...head,
  verdict: z.enum(['within', 'continue', 'blocked']),
  stations: z.array(station),
  steps: z.array(step),
  expected: z.array(expected),
  whole: z
    .strictObject({ probability: z.number().min(0.5).max(1), steps: z.array(step).min(2), expected: z.array(expected) })
    .optional(),
  learnt: z.array(learnt),
  findings: z.array(finding),
});

export type NextAnswer = z.infer<typeof NextAnswer>;
export type PrintedFinding = z.infer<typeof finding>;

/** One line of JSON, no more and no less. */
export function oneLine(out: string): unknown {
  const [line, ...rest] = out.split('\n');
  if (rest.length !== 1 || rest[0] !== '') throw new Error(`not exactly one line: ${JSON.stringify(out)}`);
  return JSON.parse(line!);
}

/** Paths of all that is `null` or, before it is written, no number. */
export function unknowns(value: unknown, path = ''): string[] {
  if (value === null || (typeof value === 'number' && !Number.isFinite(value))) return [path];
  if (typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([key, inner]) =>
    inner === undefined ? [] : unknowns(inner, `${path}/${key}`),
  );
}

export const checkAnswer = (out: string) => CheckAnswer.parse(oneLine(out));

/** The answer, once its parts agree with each other. */
export function nextAnswer(out: string): NextAnswer {
  const answer = NextAnswer.parse(oneLine(out));
  const disagreement = disagreements(answer);
  if (disagreement.length > 0) throw new Error(disagreement.join('; '));
  return answer;
}

const CLEARS: ReadonlySet<string> = new Set(['care', 'repair', 'check']);

function disagreements({ verdict, stations, steps, expected: readings }: NextAnswer): string[] {
  // What is unfit or loose is cleared by the log: the cell for it is there while nothing else may be done.
  const record = steps.some(
    ({ cell, kind }) => cell !== undefined && kind !== 'release' && (verdict !== 'blocked' || !CLEARS.has(kind)),
  );
  const shoots = steps.flatMap((one, k) => (one.kind === 'shoot' ? [{ ...one, k }] : []));
  const limited = stations.filter(({ requirements }) => requirements.length > 0);
  const wrong: readonly (readonly [boolean, string])[] = [
    [record !== (verdict === 'continue'), `${verdict} with${record ? '' : 'out'} a cell to write`],
    [
      verdict === 'blocked' && steps.some(({ kind }) => kind !== 'care' && kind !== 'repair' && kind !== 'check'),
      'blocked, and something is to be shot or moved',
    ],
    [shoots.some(({ k }) => k < steps.length - 1), 'a step behind the first shoot'],
    [
      verdict === 'within' && (limited.length === 0 || limited.some(({ state }) => state !== 'within')),
      '`within`, and a station is not',
    ],
    [
      stations.some(({ state, probability: sure }) => state === 'within' && sure === undefined),
      'a station is within by no probability',
    ],
    [
      readings.some(
        (one) => !shoots.some((shoot) => shoot.station === one.station && shoot.shots.some(({ at }) => at === one.at)),
      ),
      'a reading is expected that nobody takes',
    ],
  ];
  return wrong.filter(([isWrong]) => isWrong).map(([, what]) => what);
}

/** Every answer for programs, and that for people, about one file: its evaluation is what takes the time. */
export function bothWays(file: string) {
  const request = typist();
  const answer = nextAnswer(request('next', '--json', file).out);
  for (const command of ['care', 'sessions', 'light'])
    expect(unknowns(oneLine(request(command, '--json', file).out)), command).toEqual([]);
  return { answer, text: request('next', file).out };
}
