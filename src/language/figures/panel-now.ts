/** What to do now, as the panel shows it: the sentence, a sign for it, and what its button logs. */
import {
  lengthsIn,
  lookup,
  type Evaluation,
  type PanelNow,
  type PanelStation,
  type PanelWay,
  type ShownState,
  type Step,
} from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { machineAt } from '../book/machine-at.ts';
import { addStep } from '../edits/add-step.ts';
import type { AdviceNow, Way } from '../hints/advice-now.ts';
import { cautionsFor, wavelengthOf } from '../words/cautions-for.ts';
import { shortState } from '../words/station-words.ts';

/** The book must be up to date. */
export function panelNow(book: Book, now: AdviceNow): PanelNow {
  const { sentence, then, steps, ways } = now;
  const evaluation = book.evaluation();
  const check = steps.find((step) => step.kind === 'check');
  const log = ways ? undefined : addStep(book) && loggedBy(steps, evaluation);
  const isFirst = check !== undefined && check === steps[0];
  return {
    sentence,
    then,
    sign: signOf(book, now, evaluation),
    ...(log && { log }),
    ...(ways && { ways: [wayOf(ways[0]), wayOf(ways[1])], ...doubtOf(evaluation) }),
    steps: ways ? ways.map(({ say }) => say) : steps.map(({ say }) => say),
    cautions: cautionsFor(steps, wavelengthOf(book)).lines,
    ...(isFirst && check.cell !== undefined && { checks: checksIn(check.cell, check.items) }),
  };
}

function wayOf({ kind, tapes, outcome, steps }: Way): PanelWay {
  return { kind, tapes, outcome, turns: steps.filter((step) => step.kind === 'turn').length };
}

/** The least probable requirement of the station in question. */
function doubtOf({ ways, stations }: Evaluation): Pick<PanelNow, 'doubt'> {
  const station = stations.find(({ name }) => name === ways?.station);
  const [least] = (station?.requirements ?? []).toSorted((a, b) => (a.probability ?? 1) - (b.probability ?? 1));
  if (!station || least?.value === undefined || least.u === undefined || least.probability === undefined) return {};
  const { limit, value, u, max, probability } = least;
  const lengths = lengthsIn(station.frame.units);
  const [scale, unit] = limit === 'plumb' ? [1000, 'mrad'] : [lengths.scale, lengths.unit];
  const name = `${limit.charAt(0).toUpperCase()}${limit.slice(1)} of ${station.name}`;
  return {
    doubt: {
      name,
      value: value * scale,
      u: u * scale,
      max: max * scale,
      probability,
      unit,
      decimals: unit === 'in' ? 2 : 1,
    },
  };
}

function loggedBy(steps: readonly Step[], { verdict }: Evaluation): PanelNow['log'] {
  const [first] = steps;
  if (first?.kind === 'check' && first.cell !== undefined) return 'checks';
  if (first?.kind === 'release') return 'release';
  if (first?.kind === 'care' && verdict === 'blocked') return 'replacement';
  return steps.every(({ kind }) => kind === 'turn' || kind === 'lock') ? 'turn' : 'step';
}

/** The list has one line for each item. */
function checksIn(cell: string, items: readonly string[]): NonNullable<PanelNow['checks']> {
  const lines = cell.split(/(?<=\n)/);
  const from = lines.length - items.length;
  return { items, head: lines.slice(0, from).join(''), lines: lines.slice(from) };
}

function signOf(book: Book, { steps, station, ways }: AdviceNow, evaluation: Evaluation): PanelNow['sign'] {
  if (ways) return { act: 'state', state: 'borderline' };
  if (evaluation.verdict !== 'continue') return { act: 'state', state: evaluation.verdict };
  if (station !== undefined) return { act: 'read' };
  const [first] = steps;
  if (first?.kind === 'check') return { act: 'check' };
  if (evaluation.unexplained > 0) return { act: 'state', state: 'unexplained' };
  if (first?.kind === 'shoot') return { act: 'shoot' };
  const turn = steps.find((step) => step.kind === 'turn');
  if (turn) return { act: 'turn', screw: turn.screw, turns: turn.turns, hand: handOf(book, turn.part) };
  const open = evaluation.stations.find(({ state }) => state !== 'within' && state !== 'unlimited');
  return { act: 'state', state: open?.state ?? 'within' };
}

function handOf(book: Book, part: string): 'right' | 'left' {
  const machine = machineAt(book, Infinity);
  const mount = machine?.path.find(({ name }) => name === part)?.mount;
  return (mount !== undefined && lookup(machine!.mounts, mount)?.hand) || 'right';
}

/** Every station as it is drawn on the path. */
export function panelStations(book: Book, { steps, station }: AdviceNow): PanelStation[] {
  const evaluation = book.evaluation();
  const unfit = evaluation.verdict === 'blocked' ? steps.find((step) => step.kind === 'care')?.part : undefined;
  // A mark that the log does not explain is shot again first.
  const [first] = steps;
  const unexplained = evaluation.unexplained > 0 && first?.kind === 'shoot' ? first.station : undefined;
  return evaluation.stations.map(({ name, state, aperture, requirements, readings, staleSince }) => {
    const limit = requirements.find((one) => one.limit === 'centre')?.max ?? aperture / 2;
    const shown: ShownState = name === unfit ? 'blocked' : name === unexplained ? 'unexplained' : state;
    const act = evaluation.ways?.station === name ? 'choose' : actAt(name, steps, station);
    const marks = readings.filter(({ height, none }) => height === 0 && !none);
    return {
      name,
      state: shown,
      words: shown === 'incomplete' ? shown : wordsOf(shown),
      ...(act && { act }),
      marks: marks.flatMap(({ right, up }, place) =>
        right === undefined || up === undefined
          ? []
          : [{ place, right: right / limit, up: up / limit, isStale: staleSince !== undefined }],
      ),
    };
  });
}

function wordsOf(state: ShownState): string {
  return state === 'blocked' || state === 'unexplained' ? state : shortState(state);
}

function actAt(name: string, steps: readonly Step[], reading: string | undefined): PanelStation['act'] {
  if (name === reading) return 'read';
  if (steps.some((step) => step.kind === 'turn' && step.part === name)) return 'turn';
  return steps.some((step) => step.kind === 'shoot' && step.station === name) ? 'shoot' : undefined;
}
