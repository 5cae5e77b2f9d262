/**
 * The directions of one layout: the machine directions of a mark's right and up, and the move of the mark by each
 * screw.
 *
 * Computed by the given source: the product, or the independent 3-D library. Units: mm, machine frame (x right, y rear,
 * z up); every screw one tenth of a turn in.
 */
import { arriving, nominal, scale, trace, turnEffect, scalePose, viewer } from '../../src/optics/index.ts';
import type { Direction, Layout, Vector } from '../../src/optics/index.ts';
import { posed } from './machine.ts';
import { lookAlong, refereeTrace, type Mark } from './referee.ts';

const TENTH = 0.1;

/** The source of the table's values. */
export interface Tracer {
  frame(leg: Direction): { readonly right: Vector; readonly up: Vector };
  marks(layout: Layout, mirror: number, screw: string): readonly (Mark | null | undefined)[];
}

export interface Move {
  readonly mirror: number;
  readonly screw: string;
  /** Move of the mark, machine frame, along the viewer's right and along the viewer's up. */
  readonly across: Vector;
  readonly above: Vector;
}

export interface Row {
  readonly tape: string;
  readonly runs: Direction;
  readonly right: Vector;
  readonly up: Vector;
  readonly moves: readonly Move[];
}

export const byProduct: Tracer = {
  frame: viewer,
  marks(layout, mirror, screw) {
    const effect = turnEffect(layout.elements[mirror]?.mount ?? { screws: [] }, screw);
    return effect === undefined ? [] : trace(layout, posed(layout, mirror, scalePose(effect, TENTH)), {});
  },
};

export const byReferee: Tracer = {
  frame(leg) {
    const { right, up } = lookAlong(leg);
    return { right: right.toArray(), up: up.toArray() };
  },
  marks: (layout, mirror, screw) =>
    refereeTrace(
      layout,
      nominal(layout),
      layout.elements.map((_, at) => (at === mirror ? { [screw]: TENTH } : {})),
      {},
    ),
};

/** One row for each tape, with the moves by every screw of every mirror that the beam has met before it. */
export function directionsTable(layout: Layout, by: Tracer): readonly Row[] {
  const turns = layout.elements.flatMap(({ mount }, mirror) =>
    (mount?.screws ?? []).map(({ name: screw }) => ({ mirror, screw, marks: by.marks(layout, mirror, screw) })),
  );
  return layout.elements.map(({ name }, at) => {
    const runs = arriving(layout, at);
    const { right, up } = by.frame(runs);
    const moves = turns
      .filter(({ mirror }) => mirror < at)
      .map(({ mirror, screw, marks }) => ({
        mirror,
        screw,
        across: scale(right, marks[at]?.right ?? NaN),
        above: scale(up, marks[at]?.up ?? NaN),
      }));
    return { tape: name, runs, right, up, moves };
  });
}
