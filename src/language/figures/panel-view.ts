/** The panel's view model: a station's target, the marks to place, and the screws to turn. */
import {
  turnInCell,
  type Evaluation,
  type ScrewsFigure,
  type PanelView,
  type PanelOptions,
  type TriedTurn,
} from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { resolutionOf } from '../edits/place-mark.ts';
import { adviceNow, type AdviceNow } from '../hints/advice-now.ts';
import { driftHere, hasVisits } from '../words/drift-here.ts';
import { lightHere } from '../words/light-here.ts';
import { machineAt } from '../book/machine-at.ts';
import { firedStation } from '../practice/fire.ts';
import { practiceView } from '../practice/practice-view.ts';
import { changesIn, measuredAt, outlookAt } from './panel-measures.ts';
import { panelNow, panelStations } from './panel-now.ts';
import { shotsOf } from './panel-shots.ts';
import { pathFigure } from './path.ts';
import { roundsFigure } from './rounds.ts';
import { screwsFigure } from './screws.ts';
import { targetFigure } from './target.ts';

/** The book must be up to date. Undefined if it describes no machine. */
export function panelView(
  book: Book,
  { station, round, turns, legs, visits, fired }: PanelOptions,
): PanelView | undefined {
  const evaluation = book.evaluation();
  const now = adviceNow(book);
  const firedAt = fired && firedStation(book, fired);
  const name = evaluation.stations.some((one) => one.name === station)
    ? station!
    : (firedAt ?? inQuestion(now, evaluation));
  const report = evaluation.stations.find((one) => one.name === name);
  if (name === undefined || !report) return undefined;
  const screws = book.log.screwsBefore(name);
  // In the order of the screws, and only those that exist.
  const ofScrews = (all: readonly TriedTurn[]) =>
    screws.flatMap(({ part, screw }) => all.filter((one) => one.part === part && one.screw === screw));
  // What turns of a practice machine will do is the learner's to expect.
  const isClosed = book.isAdviceClosed();
  const advice = ofScrews(advised(now));
  const tried = turns && ofScrews(turns).filter((turn) => turn.turns !== 0);
  const shown = tried ?? advice;
  const drawn = targetFigure(book, name, { round, expected: tried && (isClosed ? [] : book.log.whatIf(name, tried)) });
  if (!drawn) return undefined;
  const practice = practiceView(book, name, fired);
  const [rounds, path] = [roundsFigure(book, name), pathFigure(book, legs)];
  return {
    verdict: evaluation.verdict,
    now: panelNow(book, now),
    stations: panelStations(book, now),
    ...shotsOf(book, drawn, now.steps),
    measured: measuredAt(report),
    resolution: resolutionOf(book),
    screws,
    turns: shown,
    advised: advice,
    outlook: screws.length > 0 && !isClosed ? outlookAt(book, report, shown) : [],
    mounts: mountsOf(book, name, tried ?? advised(now), screws),
    ...(tried && tried.length > 0 && !areSame(tried, advice) && { triedCell: cellOf(tried) }),
    ...(rounds && rounds.rounds.length > 1 && { rounds }),
    visit: changesIn(book),
    ...(path && { path }),
    light: lightOn(book, evaluation, name),
    hasVisits: hasVisits(book),
    ...(visits && { drift: driftHere(book, name) }),
    ...(practice && { practice }),
  };
}

function areSame(one: readonly TriedTurn[], other: readonly TriedTurn[]): boolean {
  return (
    one.length === other.length &&
    one.every((turn) =>
      other.some(({ part, screw, turns }) => part === turn.part && screw === turn.screw && turns === turn.turns),
    )
  );
}

function lightOn(book: Book, { stations }: Evaluation, name: string): PanelView['light'] {
  const [machine, station] = [machineAt(book, Infinity), stations.find((one) => one.name === name)];
  return machine && station ? lightHere(machine, station) : [];
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
