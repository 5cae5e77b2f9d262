/** Writes what is expected of a shot into its marks cell, before it is fired. */
import { nameInCell } from '../../words/index.ts';
import { keysOf, type Axes, type Shot, type TextPlace } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { arrivesAt } from '../book/arrives-at.ts';
import { legWords } from '../edits/place-mark.ts';
import type { Change } from '../fixes/fix.ts';
import { expectationOf, EXPECTED, placeKey } from './expected.ts';
import { practiceAt } from '../book/practice-at.ts';
import { firedMarks } from './fire.ts';

/**
 * The change that writes `x-expected` with this mark among those that are there.
 *
 * @param words a mark as in a cell: `1 left 2 up`
 * @returns undefined if the words are no mark, or there is no such shot
 */
export function expectEdit(book: Book, place: TextPlace, words: string): Change[] | undefined {
  const { cell } = place;
  const [own, practice] = [book.split.cells[cell], practiceAt(book, cell)];
  const fired = firedMarks(book, cell);
  const target = fired.find((one) => one.place.path === place.path);
  if (!own || !practice || !target || /[\n{}[\],#]/.test(words)) return undefined;
  const runs = arrivesAt(practice.machine, target.station);
  const before = expectationOf(book, cell);
  const inCell = (shot: Shot): string | undefined => {
    if (placeKey(shot) === placeKey(target.shot)) return words.trim();
    const mark: Axes | undefined = before.get(placeKey(shot));
    return mark && runs && legWords(mark, { machine: practice.machine, runs, mirrored: false });
  };
  const shots = [...new Map(fired.map(({ shot }) => [placeKey(shot), shot])).values()];
  const written = shots.flatMap((shot) => {
    const mark = inCell(shot);
    return mark === undefined ? [] : [{ shot, mark }];
  });
  const value = expectationText(written, keysOf(place.path).length);
  const line = `x-expected: ${value}\n`;
  const old = EXPECTED.exec(own.text);
  const at = own.start + (old?.index ?? afterFirstLine(own.text));
  const change = { start: at, end: at + (old ? `${old[0]}\n`.length : 0), text: line };
  const next = book.text.slice(0, change.start) + change.text + book.text.slice(change.end);
  return expectationIn(book, next, cell).has(placeKey(target.shot)) ? [change] : undefined;
}

/** In the form of `shots`: a bare mark where the station has one place, by stop, or as a list. */
function expectationText(written: readonly { readonly shot: Shot; readonly mark: string }[], depth: number): string {
  if (depth === 1) return written[0]!.mark;
  const isByStop = written.every(
    ({ shot }) => typeof shot.at === 'string' && Object.keys(shot.with).length === 0 && shot.height === 0,
  );
  if (isByStop) return `{${written.map(({ shot, mark }) => `${nameInCell(String(shot.at))}: ${mark}`).join(', ')}}`;
  const item = ({ shot, mark }: (typeof written)[number]) => {
    const others = Object.entries(shot.with).map(([name, stop]) => `${name}: ${lengthOf(stop)}`);
    return `{${[
      `at: ${lengthOf(shot.at)}`,
      ...(others.length > 0 ? [`with: {${others.join(', ')}}`] : []),
      ...(shot.height > 0 ? [`height: ${shot.height} mm`] : []),
      `mark: ${mark}`,
    ].join(', ')}}`;
  };
  return `[${written.map(item).join(', ')}]`;
}

function lengthOf(stop: string | number): string {
  return typeof stop === 'number' ? `${stop} mm` : nameInCell(stop);
}

/** After the line of the kind, behind the markers. */
function afterFirstLine(text: string): number {
  const kind = /^marks:.*\n/m.exec(text);
  return kind ? kind.index + kind[0].length : text.length;
}

function expectationIn(book: Book, text: string, cell: number): ReadonlyMap<string, Axes> {
  const next = book.withText(text);
  return expectationOf(next, cell);
}
