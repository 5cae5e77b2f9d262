/** The face of a mount: its screws, what to turn, and what a turn does to a mark. */
import { placeInWords } from '../../words/index.ts';
import {
  lookup,
  type Axes,
  type MountDescription,
  type Quantity,
  type ScrewsFigure,
  type TriedTurn,
} from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { machineAt } from '../book/machine-at.ts';

/** Turns: small enough to be linear, large enough to be visible. */
const EIGHTH = 1 / 8;

/**
 * Undefined if the part has no mount, or the station is not behind it.
 *
 * @param turns of this part and others: advised, or tried
 */
export function screwsFigure(
  book: Book,
  part: string,
  station: string,
  turns: readonly TriedTurn[],
): ScrewsFigure | undefined {
  const machine = machineAt(book, Infinity);
  const element = machine?.path.find(({ name }) => name === part);
  const mount = element?.mount === undefined ? undefined : lookup(machine!.mounts, element.mount);
  const report = book.log.report(station, book.workbook.entries.length);
  const own = book.log.screwsBefore(station).filter((one) => one.part === part);
  if (!mount || !report || own.length === 0) return undefined;
  // What a screw of a practice machine does is the learner's to find out.
  const isClosed = book.isAdviceClosed();
  const now = book.log.whatIf(station, []).at(-1);
  return {
    kind: 'screws',
    part,
    heads: mount.heads,
    hand: mount.hand,
    ...(mount.knob !== undefined && { knob: mount.knob }),
    ...(mount.pivot && { pivot: { right: mount.pivot.right.value, up: mount.pivot.up.value } }),
    mark: { station, place: now ? placeInWords(report.carriages, now.at, now.with) : '', frame: report.frame },
    screws: own.map(({ screw }) => {
      const place = placeOf(mount, screw);
      const then = isClosed ? undefined : book.log.whatIf(station, [{ part, screw, turns: EIGHTH }]).at(-1);
      const known = place !== undefined && now && then;
      return {
        name: screw,
        turns: turns
          .filter((turn) => turn.part === part && turn.screw === screw)
          .reduce((sum, turn) => sum + turn.turns, 0),
        ...(place && { place }),
        ...(known && { moves: { right: then.right - now.right, up: then.up - now.up } }),
      };
    }),
  };
}

export function placeOf({ screws }: MountDescription, name: string): Axes | undefined {
  const described: { readonly right?: Quantity; readonly up?: Quantity } | undefined = lookup(screws, name);
  return described?.right && described.up ? { right: described.right.value, up: described.up.value } : undefined;
}
