/** The panel's view model: a station's target, the marks to place, and the screws to turn. */
import {
  turnInCell,
  type Evaluation,
  type ScrewsFigure,
  type PanelView,
  type PanelOptions,
  type Slot,
  type TriedTurn,
} from '../../model/index.ts';
import { addStep } from '../edits/add-step.ts';
import type { Book } from '../book/book-type.ts';
import { slotsOf } from '../book/mark-slots.ts';
import { resolutionOf } from '../edits/place-mark.ts';
import { adviceNow, type AdviceNow } from '../hints/advice-now.ts';
import { driftHere, hasVisits } from '../words/drift-here.ts';
import { lightHere } from '../words/light-here.ts';
import { machineAt } from '../book/machine-at.ts';
import { shortState } from '../words/station-words.ts';
import { pathFigure } from './path.ts';
import { roundsFigure } from './rounds.ts';
import { screwsFigure } from './screws.ts';
import { targetFigure } from './target.ts';

/** The book must be up to date. Undefined if it describes no machine. */
export function panelView(
  book: Book,
  { station, round, turns = [], legs, visits }: PanelOptions,
): PanelView | undefined {
  const evaluation = book.evaluation();
  const now = adviceNow(book);
  const name = evaluation.stations.some((one) => one.name === station) ? station! : inQuestion(now, evaluation);
  if (name === undefined) return undefined;
  const screws = book.log.screwsBefore(name);
  const tried = turns.filter(
    ({ part, screw, turns: amount }) => amount !== 0 && screws.some((one) => one.part === part && one.screw === screw),
  );
  const figure = targetFigure(book, name, {
    round,
    expected: tried.length > 0 && !book.isAdviceClosed() ? book.log.whatIf(name, tried) : undefined,
  });
  if (!figure) return undefined;
  const [rounds, path] = [roundsFigure(book, name), pathFigure(book, legs)];
  const why = whyOf(now, evaluation);
  return {
    verdict: evaluation.verdict,
    brief: now.brief,
    canAdd: addStep(book) !== undefined,
    ...(why !== '' && { why }),
    stations: evaluation.stations.map((report) => ({ name: report.name, words: shortState(report.state) })),
    figure,
    slots: isStale(evaluation, name) ? slotsOf(book, name).filter(isBlank) : slotsOf(book, name),
    resolution: resolutionOf(book),
    screws,
    mounts: mountsOf(book, name, tried.length > 0 ? tried : advised(now), screws),
    ...(tried.length > 0 && { triedCell: cellOf(tried) }),
    ...(rounds && rounds.rounds.length > 1 && { rounds }),
    ...(path && { path }),
    light: lightOn(book, evaluation, name),
    hasVisits: hasVisits(book),
    ...(visits && { drift: driftHere(book, name) }),
  };
}

function lightOn(book: Book, { stations }: Evaluation, name: string): PanelView['light'] {
  const [machine, station] = [machineAt(book, Infinity), stations.find((one) => one.name === name)];
  return machine && station ? lightHere(machine, station) : [];
}

/** If no step helps, the first step gives the reason. */
function whyOf({ steps }: AdviceNow, evaluation: Evaluation): string {
  return [
    evaluation.verdict === 'blocked' ? steps[0]?.say : undefined,
    steps.find((step) => step.why !== undefined)?.why,
  ]
    .filter((part) => part !== undefined)
    .join(' ');
}

function advised({ steps }: AdviceNow): readonly TriedTurn[] {
  return steps.filter((step) => step.kind === 'turn');
}

/** Each mirror with a turn, else the nearest one before the station. */
function mountsOf(
  book: Book,
  station: string,
  turns: readonly TriedTurn[],
  screws: PanelView['screws'],
): ScrewsFigure[] {
  const turned = [...new Set(turns.map(({ part }) => part))];
  const parts = turned.length > 0 ? turned : screws.slice(0, 1).map(({ part }) => part);
  return parts.flatMap((part) => screwsFigure(book, part, markStation(book, part, station), turns) ?? []);
}

/** A mirror's screws move no mark before the station behind it. */
function markStation(book: Book, part: string, station: string): string {
  const names = book.evaluation().stations.map(({ name }) => name);
  const behind = names.indexOf(part) + 1;
  return names.indexOf(station) < behind ? (names[behind] ?? station) : station;
}

/** The station of blanks, else the one that is shot next, else the first that is not within. */
function inQuestion({ steps, station }: AdviceNow, { stations }: Evaluation): string | undefined {
  const shot = steps.find((step) => step.kind === 'shoot');
  return station ?? shot?.station ?? (stations.find(({ state }) => state !== 'within') ?? stations[0])?.name;
}

function isStale({ stations }: Evaluation, name: string): boolean {
  return stations.find((one) => one.name === name)?.staleSince !== undefined;
}

/** A click must not overwrite marks read before something moved. */
function isBlank({ right, up }: Slot): boolean {
  return right === undefined && up === undefined;
}

/** One cell for each mirror. */
function cellOf(turns: readonly TriedTurn[]): string {
  const parts = [...new Set(turns.map(({ part }) => part))];
  return parts
    .map((part) => {
      const own = turns
        .filter((turn) => turn.part === part)
        .map(({ screw, turns: amount }) => `${screw}: ${turnInCell(amount)}`);
      return `adjust: ${part}\nturn: {${own.join(', ')}}\n`;
    })
    .join('---\n');
}
