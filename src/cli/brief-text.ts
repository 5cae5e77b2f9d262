/** `next --brief`: what to do now on a screen of at most 24 lines of 48 columns, in ASCII. */
import type { Evaluation, Expected, StationReport, StationState, Step } from '../model/index.ts';
import {
  actsOf,
  adviceNow,
  cautionsNow,
  machineAt,
  visitProgress,
  type Act,
  type ActRow,
  type Book,
  type VisitProgress,
} from '../language/index.ts';
import { expectedInColumns, percent } from '../words/index.ts';
import type { Paint, Style } from './paint.ts';
import { cut, inAscii, lineOf, type Piece } from './screen.ts';
import { wrapped } from './wrap.ts';

/** The screen: columns and lines. */
const SCREEN = { columns: 48, lines: 24 } as const;
/** Columns: of what goes with a head; of a screw's place, turn and hand. */
const ASIDE = 18;
const ROW = { name: 2, text: 5, turn: 21, hand: 33 } as const;

/** What is left out first where there are too many lines; acts and cautions stay. */
const RANK = { needed: 0, expected: 1, stations: 2, chance: 3, blank: 4 } as const;

interface Line {
  readonly text: string;
  readonly rank: number;
  readonly isAct?: true;
}

interface Screen {
  readonly width: number;
  readonly paint: Paint;
}

/** @param columns of the terminal; fewer than 48 give longer text, more give no wider one */
export function briefText(file: string, book: Book, paint: Paint, columns: number = SCREEN.columns): string {
  const screen: Screen = { width: Math.max(20, Math.min(columns, SCREEN.columns)), paint };
  const evaluation = book.evaluation();
  const advice = adviceNow(book);
  const blank: Line = { text: '', rank: RANK.blank };
  const needed = (texts: readonly string[]) => texts.map((text): Line => ({ text, rank: RANK.needed }));
  const rule = '-'.repeat(screen.width);
  const sections: (readonly Line[])[] = [
    actLines(book, evaluation, screen),
    ranked(
      RANK.expected,
      advice.station === undefined && !advice.ways ? expectedLines(evaluation, advice.steps, screen) : [],
    ),
    ranked(RANK.chance, advice.ways ? [] : chanceLines(evaluation, screen)),
    ranked(RANK.stations, stationLines(evaluation, advice.station, screen)),
  ];
  const lines = [
    ...needed([...headLines(file, book, screen), rule]),
    ...sections
      .filter((section) => section.length > 0)
      .flatMap((section, k) => (k === 0 ? section : [blank, ...section])),
    ...needed([
      rule,
      ...cautionLines(book, advice.steps, screen),
      ...lineOf([{ text: whole(file, screen), at: 0 }], screen.width, paint),
    ]),
  ];
  const shown = columns < SCREEN.columns ? lines : fitted(lines, screen);
  return `${shown.map(({ text }) => text.trimEnd()).join('\n')}\n`;
}

function ranked(rank: number, texts: readonly string[]): Line[] {
  return texts.map((text) => ({ text, rank }));
}

/** Lines are left out by their rank, blank ones from below and one by one; in the end acts give way to a hint. */
function fitted(lines: readonly Line[], { width, paint }: Screen): readonly Line[] {
  let shown = [...lines];
  for (let rank: number = RANK.blank; rank > RANK.needed && shown.length > SCREEN.lines; rank--) {
    if (rank !== RANK.blank) shown = shown.filter((line) => line.rank !== rank);
    else
      while (shown.length > SCREEN.lines && shown.some((line) => line.rank === rank))
        shown.splice(
          shown.findLastIndex((line) => line.rank === rank),
          1,
        );
  }
  const over = shown.length - SCREEN.lines;
  if (over <= 0) return shown;
  const last = shown.findLastIndex(({ isAct }) => isAct);
  const more = lineOf(
    [{ text: 'AND MORE: alignbook next FILE, before you go on', at: 0, style: 'bold' }],
    width,
    paint,
  );
  return [...shown.slice(0, last + 1 - over - more.length), ...ranked(RANK.needed, more), ...shown.slice(last + 1)];
}

function headLines(file: string, book: Book, { width, paint }: Screen): string[] {
  const machine = machineAt(book, Infinity);
  const visit = visitProgress(book);
  const right = visit ? progressOf(visit) : 'no visit yet';
  const name = cut(machine?.name ?? inAscii(file), width / 2);
  const room = width - name.length - right.length - 3;
  const title = visit?.title === undefined || room < 3 ? '' : cut(inAscii(visit.title), room);
  const practice = machine?.practice;
  return [
    ...(practice
      ? lineOf(
          [
            {
              text: `PRACTICE  level ${practice.level}, seed ${practice.seed}: can't be released`,
              at: 0,
              style: 'bold',
            },
          ],
          width,
          paint,
        )
      : []),
    ...lineOf(
      [
        { text: name, at: 0 },
        { text: title, at: name.length + 2 },
        { text: right, at: width - right.length },
      ],
      width,
      paint,
    ),
  ];
}

function progressOf({ number, round, tapes, released }: VisitProgress): string {
  if (released !== undefined) return released === true ? 'released' : `released ${released}`;
  return tapes === 0 ? `visit ${number}` : `round ${round}, ${tapes} ${tapes === 1 ? 'tape' : 'tapes'} shot`;
}

const SENSE_STYLE = { in: 'cyan', out: 'yellow' } as const;

function actLines(book: Book, { verdict, steps }: Evaluation, screen: Screen): Line[] {
  const advice = adviceNow(book);
  const acts = actsOf(book, advice);
  const isAct = true;
  if (verdict === 'blocked')
    return blockedLines(acts, steps, screen).map((text) => ({ text, rank: RANK.needed, isAct }));
  if (acts.length === 0 && verdict === 'within')
    return ranked(
      RANK.needed,
      lineOf(
        [
          { text: 'WITHIN', at: 0, style: 'green' },
          { text: 'nothing is to be done now', at: ASIDE, style: 'dim' },
        ],
        screen.width,
        screen.paint,
      ),
    );
  return acts.flatMap((act, k) => [
    ...(k === 0 ? [] : [{ text: '', rank: RANK.blank }]),
    ...actLine(act, leadOf(act, acts[k - 1]), screen).map((text): Line => ({ text, rank: RANK.needed, isAct })),
  ]);
}

/** One of two ways has its number. */
function leadOf({ way }: Act, before: Act | undefined): string {
  if (way === undefined) return before ? 'then ' : '';
  return before?.way === way ? `${way}: then ` : `${way}: `;
}

function actLine({ what, how = '', rows }: Act, lead: string, { width, paint }: Screen): string[] {
  const head = inAscii(`${lead}${what}`).toUpperCase();
  return [
    ...lineOf(
      [
        { text: head, at: 0, style: 'bold' },
        { text: how, at: ASIDE, style: 'dim' },
      ],
      width,
      paint,
    ),
    ...rows.flatMap((row) => lineOf(piecesOf(row), width, paint)),
  ];
}

function piecesOf({ name = '', text, turn }: ActRow): Piece[] {
  const shown = inAscii(text);
  if (!turn)
    return [
      { text: name, at: ROW.name },
      { text: shown, at: name === '' ? ROW.name : ROW.text },
    ];
  const { sense, amount, hand } = turn;
  return [
    { text: name, at: ROW.name },
    { text: shown, at: ROW.text },
    { text: `${sense.toUpperCase().padEnd(3)} ${amount}`, at: ROW.turn, style: SENSE_STYLE[sense] },
    { text: hand, at: ROW.hand, style: 'dim' },
  ];
}

/** What to do in order, and nothing that fires or moves. */
function blockedLines(acts: readonly Act[], steps: readonly Step[], { width, paint }: Screen): string[] {
  const texts = acts.flatMap(({ what, rows }) => (rows.length === 0 ? [what] : rows.map(({ text }) => text)));
  const log = steps.some(({ cell }) => cell !== undefined) ? ['log it: alignbook add FILE'] : [];
  return [
    ...lineOf(
      [
        { text: 'DO NOT FIRE', at: 0, style: 'red' },
        { text: inAscii(acts[0]?.what ?? ''), at: ASIDE },
      ],
      width,
      paint,
    ),
    ...[...texts, ...log].flatMap((text, k) =>
      lineOf(
        [
          { text: `${k + 1}`, at: ROW.name },
          { text: inAscii(text), at: ROW.text },
        ],
        width,
        paint,
      ),
    ),
  ];
}

function expectedLines({ expected, stations }: Evaluation, steps: readonly Step[], { width, paint }: Screen): string[] {
  const report = stations.find(({ name }) => name === expected[0]?.station);
  if (!report) return [];
  const { frame } = report;
  const upright = frame.runs === 'up' || frame.runs === 'down';
  const isTrial = steps.some((step) => step.isTrial);
  const head = lineOf(
    [
      { text: 'EXPECT', at: 0, style: 'bold' },
      { text: `on ${report.name}`, at: 7 },
      { text: upright ? "the machine's directions" : 'looking along the beam', at: ASIDE, style: 'dim' },
    ],
    width,
    paint,
  );
  if (isTrial)
    return [...head, ...lineOf([{ text: 'not known yet: these marks show it', at: ROW.name }], width, paint)];
  return [
    ...head,
    ...expected.flatMap((one, k) => lineOf(expectedPieces(one, k, expected.length, report), width, paint)),
    ...(upright || frame.right === 'right'
      ? []
      : lineOf([{ text: `right = machine ${frame.right}`, at: ROW.name, style: 'dim' }], width, paint)),
  ];
}

/** Columns of the two axes of a mark; its radius follows. */
const MARK = { at: 10, width: 13 } as const;

function expectedPieces(one: Expected, k: number, of: number, report: StationReport): Piece[] {
  const { mark, radius = '' } = expectedInColumns(one, report);
  const isOfOne = report.carriages.length < 2 && typeof one.at === 'string';
  const place = of === 1 ? '' : isOfOne ? one.at : `tape ${k + 1}`;
  return [
    { text: String(place), at: ROW.name },
    ...mark.map((text, axis) => ({ text, at: MARK.at + MARK.width * axis })),
    { text: radius, at: MARK.at + 2 * MARK.width },
  ];
}

function chanceLines({ chance, stations }: Evaluation, { width, paint }: Screen): string[] {
  const target = stations.find(({ requirements, state }) => requirements.length > 0 && state !== 'within');
  if (chance === undefined || !target) return [];
  return lineOf(
    [
      { text: 'CHANCE', at: 0, style: 'bold' },
      { text: `${target.name} within after this: ${percent(chance)}`, at: ASIDE },
    ],
    width,
    paint,
  );
}

const SIGNS: Readonly<
  Record<StationState | 'blocked', { readonly sign: string; readonly word: string; readonly style: Style }>
> = {
  within: { sign: '(o)', word: 'within', style: 'green' },
  borderline: { sign: '( o', word: 'borderline', style: 'yellow' },
  outside: { sign: '( )o', word: 'outside', style: 'red' },
  incomplete: { sign: '(o', word: 'incomplete', style: 'dim' },
  stale: { sign: "(')", word: 'stale', style: 'dim' },
  unread: { sign: '( )', word: 'not shot', style: 'dim' },
  unlimited: { sign: 'o', word: 'no limits', style: 'dim' },
  blocked: { sign: '(-)', word: 'blocked', style: 'red' },
};

/** Stations in a row on a screen of 48 columns, and the columns of each. */
const COLUMN = { count: 4, width: 11 } as const;

/** The station at hand and the next three, if there are more. */
function stationLines({ stations, steps }: Evaluation, filled: string | undefined, { width, paint }: Screen): string[] {
  const hand = filled ?? steps.find((step) => step.kind === 'shoot')?.station;
  const at = stations.findIndex(({ name }) => name === hand);
  const count = Math.min(COLUMN.count, Math.floor((width - 2) / COLUMN.width));
  const first = Math.max(0, Math.min(at, stations.length - count));
  const shown = stations.slice(first, first + count);
  const isUnfit = (name: string) => steps.some((step) => step.kind === 'care' && step.part === name);
  const cells = shown.map((station, k) => {
    const { sign, word, style } = SIGNS[isUnfit(station.name) ? 'blocked' : station.state];
    return { name: cut(station.name, COLUMN.width - sign.length - 2), sign, word, style, at: 2 + COLUMN.width * k };
  });
  return [
    ...lineOf(
      cells.flatMap(({ name, sign, style, at: column }) => [
        { text: name, at: column },
        { text: sign, at: column + name.length + 1, style },
      ]),
      width,
      paint,
    ),
    ...lineOf(
      cells.map(({ word, at: column }) => ({ text: word, at: column })),
      width,
      paint,
    ),
  ];
}

function cautionLines(book: Book, steps: readonly Step[], { width }: Screen): string[] {
  const { lines } = cautionsNow(book, steps, 'brief');
  return lines.length === 0 ? [] : wrapped(lines.join(' '), '', width);
}

/** Names the file where that fits. */
function whole(file: string, { width }: Screen): string {
  const named = `all of it: alignbook next ${inAscii(file)}`;
  return named.length <= width && file !== '-' ? named : 'all of it: alignbook next FILE';
}
