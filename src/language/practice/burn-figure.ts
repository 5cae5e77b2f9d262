/** The burnt tape of a shot as a figure; once its mark is logged, with what was expected and where it came. */
import { placeInWords } from '../../words/index.ts';
import { isVertical, viewer, type BurnFigure, type TextPlace } from '../../model/index.ts';
import { burntTape, draws, TAPE_REACH } from '../../simulator/index.ts';
import type { Book } from '../book/book-type.ts';
import { arrivesAt } from '../book/arrives-at.ts';
import { practiceAt } from '../book/practice-at.ts';
import { firedMarks, type FiredMark } from './fire.ts';
import { expectationOf, placeKey } from './expected.ts';

/** mm: what is shown of a tape on the bed. */
const BED_REACH = 16;

/** The tape of one mark of a marks cell; undefined if there is no such mark, or its machine is real. */
export function burnFigure(book: Book, place: TextPlace): BurnFigure | undefined {
  const fired = firedMarks(book, place.cell).find((one) => one.place.path === place.path);
  return fired && figureOf(book, fired);
}

/** The figure of a shot that was fired. */
export function figureOf(book: Book, fired: FiredMark): BurnFigure | undefined {
  const { place, station, shot, burn, isBlank, read } = fired;
  const practice = practiceAt(book, place.cell);
  const runs = practice && arrivesAt(practice.machine, station);
  const element = practice?.machine.path.find(({ name }) => name === station);
  if (!practice || !runs || !element) return undefined;
  const { rightWord, upWord } = viewer(runs);
  const isOnBed = shot.height > 0;
  const expected = expectationOf(book, place.cell).get(placeKey(shot));
  return {
    kind: 'burn',
    station,
    place: wherePlaced(book, fired),
    frame: { runs, right: rightWord, up: upWord, units: practice.machine.units },
    ...(!isOnBed && { aperture: element.aperture }),
    reach: isOnBed ? BED_REACH : element.aperture / 2 + TAPE_REACH,
    ...(!burn.none && {
      burnt: burntTape(draws(practice.simulation.seed), burn, !isVertical(runs), [station, place.cell, place.path]),
    }),
    ...(!isBlank &&
      read &&
      !burn.none && { compared: { ...(expected && { expected }), read, came: burn, letter: letterOf(shot.at) } }),
  };
}

/** `gantry far from M1 (front), 20 mm below`; empty if no carriage moves the tape. */
export function wherePlaced(book: Book, { place, station, shot }: FiredMark): string {
  const count = book.workbook.entries.findIndex(({ cell }) => cell === place.cell) + 1;
  const carriages = book.log.report(station, count)?.carriages ?? [];
  const where = placeInWords(carriages, shot.at, shot.with);
  return [where, shot.height > 0 ? `${shot.height} mm below` : ''].filter(Boolean).join(', ');
}

/** As in the list of shots: a place's first letter, none where the station has one place or the stop is a leg. */
function letterOf(at: string | number): string {
  return typeof at === 'string' && at !== 'here' ? at.charAt(0).toUpperCase() : '';
}
