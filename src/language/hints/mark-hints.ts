/**
 * After every mark: its distance from the centre, and the machine's word for the side if it differs from the viewer's.
 */
import { markWithUnits } from '../../words/index.ts';
import {
  child,
  isVertical,
  lengthsIn,
  opposite,
  viewer,
  waysOf,
  type Direction,
  type Mark,
  type Shot,
  type Spans,
  type TapeFrame,
} from '../../model/index.ts';
import type { Behind, HintsFor } from './hint.ts';
import type { Book } from '../book/book-type.ts';
import { machineAt } from '../book/machine-at.ts';
import { arrivesAt } from '../book/arrives-at.ts';

export const markHints: HintsFor = (book, { entry, cell }) => {
  if (entry.kind !== 'marks') return [];
  const frame = frameAt(book, cell, entry.station);
  if (!frame) return [];
  // The position of a tape on the bed is unknown: only differences between its marks are meaningful.
  return entry.shots.filter(({ height }) => height === 0).flatMap((shot) => ofShot(shot, frame, entry.spans));
};

function frameAt(book: Book, cell: number, station: string): TapeFrame | undefined {
  const machine = machineAt(book, cell);
  const runs = machine && arrivesAt(machine, station);
  if (!runs) return undefined;
  const { rightWord, upWord } = viewer(runs);
  return { runs, right: rightWord, up: upWord, units: machine.units };
}

function ofShot({ marks, path }: Shot, frame: TapeFrame, spans: Spans): Behind[] {
  return marks.flatMap((mark, k): Behind[] => {
    const span = spans[child(path, k)] ?? (marks.length === 1 ? spans[path] : undefined);
    const label = shortLabel(mark, frame);
    return span && label !== undefined ? [{ span, label, tooltip: inFull(mark, frame), inLine: true }] : [];
  });
}

/** `2.5 mm, machine left` */
function shortLabel({ right, up, none }: Mark, { runs, units }: TapeFrame): string | undefined {
  if (none) return 'missed the tape';
  if (right === undefined || up === undefined) return `${waysOf(right === undefined ? 'right' : 'up', runs)} not read`;
  const { read } = lengthsIn(units);
  const distance = read(Math.hypot(right, up));
  if (distance === read(0)) return undefined;
  const side = otherSide(right, runs);
  return `${distance}${side === undefined ? '' : `, machine ${side}`}`;
}

/** The machine's word for the side, if it differs from the viewer's. */
function otherSide(right: number, runs: Direction): Direction | undefined {
  if (Number(right.toFixed(1)) === 0 || isVertical(runs)) return undefined;
  const { rightWord } = viewer(runs);
  const real = right > 0 ? rightWord : opposite(rightWord);
  return real === (right > 0 ? 'right' : 'left') ? undefined : real;
}

function inFull({ right, up, none }: Mark, frame: TapeFrame): string {
  if (none) return 'The beam missed the tape.';
  return `${markWithUnits(right, up, frame)}, looking along the beam at the burnt side.`;
}
