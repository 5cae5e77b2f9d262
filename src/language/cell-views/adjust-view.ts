/** Below an adjustment: the plate of the mount with its turns, and the marks predicted and shot after it. */
import type { OutcomeMark, TurnEffect, TurnOutcome } from '../../evaluation/index.ts';
import { listed, markInWords, shortPlace } from '../../words/index.ts';
import {
  lengthsIn,
  lookup,
  turnInCell,
  visitsIn,
  type AdjustEntry,
  type AdjustView,
  type OutcomeRow,
  type ScrewsFigure,
} from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import type { IndexedEntry } from '../book/entries-of.ts';
import { machineAt } from '../book/machine-at.ts';
import { placeOf } from '../figures/screws.ts';

type Logged = IndexedEntry & { readonly entry: AdjustEntry };

/** Undefined if nothing was moved, such as by a lock nut alone. */
export function adjustView(book: Book, logged: Logged): AdjustView | undefined {
  const { index } = logged;
  const effect = book.log.turnEffect(index);
  if (!effect) return undefined;
  const outcome = book.log.turnOutcome(index);
  const mount = turnedMount(book, logged, effect);
  const net = netTurns(book, logged, mount?.screws.map(({ name }) => name) ?? []);
  const isContradicted = outcome?.cell !== undefined && isUnexpected(book, outcome.cell);
  const remark = outcome && remarkOn(outcome, isContradicted);
  return {
    kind: 'adjust',
    ...(mount && { mount }),
    ...(outcome && { station: outcome.station }),
    marks: outcome?.marks.map((mark) => rowOf(mark, outcome, isContradicted)) ?? [],
    ...(net !== '' && { net }),
    ...(remark !== undefined && { remark }),
  };
}

/** The mount as it was turned by this cell; what a turn does to a mark is not drawn here, and takes time to compute. */
function turnedMount(
  book: Book,
  { cell, entry: { part, turns } }: Logged,
  { station, frame }: TurnEffect,
): ScrewsFigure | undefined {
  const machine = machineAt(book, cell);
  const element = machine?.path.find(({ name }) => name === part);
  const mount = element?.mount === undefined ? undefined : lookup(machine!.mounts, element.mount);
  if (!mount || Object.keys(turns).length === 0) return undefined;
  return {
    kind: 'screws',
    part,
    heads: mount.heads,
    hand: mount.hand,
    ...(mount.pivot && { pivot: { right: mount.pivot.right.value, up: mount.pivot.up.value } }),
    mark: { station, place: '', frame },
    screws: [...new Set([...Object.keys(mount.screws), ...Object.keys(turns)])].map((name) => {
      const place = placeOf(mount, name);
      return { name, turns: lookup(turns, name) ?? 0, ...(place && { place }) };
    }),
  };
}

function isUnexpected(book: Book, cell: number): boolean {
  return book.findings().some((one) => one.cell === cell && one.code === 'log.unexpected');
}

function rowOf({ at, with: others, predicted, came }: OutcomeMark, outcome: TurnOutcome, isFar: boolean): OutcomeRow {
  const { frame, carriages } = outcome;
  const words = ({ right, up }: { readonly right: number; readonly up: number }) => markInWords(right, up, frame);
  const off =
    predicted && came && came !== 'none' ? Math.hypot(came.right - predicted.right, came.up - predicted.up) : undefined;
  return {
    place: shortPlace(carriages, at, others),
    ...(predicted && { predicted: words(predicted) }),
    ...(came && { came: came === 'none' ? 'missed the tape' : words(came) }),
    ...(off !== undefined && { offBy: lengthsIn(frame.units).read(off) }),
    isFar: isFar && off !== undefined,
  };
}

function remarkOn({ unknown, isShot }: TurnOutcome, isContradicted: boolean): string | undefined {
  if (unknown.length > 0)
    return isShot
      ? `Trial turn: the effect of ${listed(unknown)} was not known. These marks show it.`
      : `Trial turn: the effect of ${listed(unknown)} is not known yet.`;
  return isContradicted ? 'Not as predicted: by chance in less than 1 of 1000 cases.' : undefined;
}

/** Of every screw of the part since its visit began: what turns it back to as found. */
function netTurns(book: Book, { entry: { part }, index }: Logged, screws: readonly string[]): string {
  const { entries } = book.workbook;
  const from = visitsIn(entries).find((visit) => visit.from <= index && index < visit.to)?.from ?? 0;
  const net = new Map(screws.map((name) => [name, 0]));
  for (const { entry } of entries.slice(from, index + 1)) {
    if (entry.kind !== 'adjust' || entry.part !== part) continue;
    for (const [screw, turns] of Object.entries(entry.turns)) net.set(screw, (net.get(screw) ?? 0) + turns);
  }
  return [...net].map(([screw, turns]) => `${screw} ${isZero(turns) ? '0' : turnInCell(turns)}`).join(', ');
}

/** Less than the finest turn that is written, a thirty-second. */
function isZero(turns: number): boolean {
  return Math.abs(turns) < 1 / 64;
}
