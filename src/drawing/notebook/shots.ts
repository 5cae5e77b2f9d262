/** The shots of a tape as rows: both axes, each with the machine's word where it differs from the viewer's. */
import { isVertical, lengthsIn, waysOf, type TargetFigure } from '../../model/index.ts';
import { sidesOf, type Side } from '../sides.ts';

export interface Shot {
  readonly place: number;
  /** `near (rear)`; empty where no carriage moves the tape. */
  readonly name: string;
  readonly axes: readonly { readonly amount: string; readonly machine?: string }[];
  /** Instead of the axes, or of the one that was not read. */
  readonly words?: string;
  readonly isStale: boolean;
}

/** Of the shown round, in the order of the places. */
export function shotsIn(figure: TargetFigure): Shot[] {
  const { marks, halves, missed, places } = figure;
  const nameOf = (place: number) => places[place]?.brief ?? '';
  return [
    ...marks
      .filter(({ age }) => age !== 'earlier')
      .map(({ place, age, right, up }): Shot => {
        const axes = [...axisOf(figure, 'right', right), ...axisOf(figure, 'up', up)];
        return {
          place,
          name: nameOf(place),
          isStale: age === 'stale',
          axes,
          ...(axes.length === 0 && { words: 'centred' }),
        };
      }),
    ...halves.map(
      ({ place, age, read, value }): Shot => ({
        place,
        name: nameOf(place),
        isStale: age === 'stale',
        axes: axisOf(figure, read, value),
        words: `${waysOf(read === 'right' ? 'up' : 'right', figure.frame.runs)} not read`,
      }),
    ),
    ...missed.map(
      ({ place }): Shot => ({ place, name: nameOf(place), isStale: false, axes: [], words: 'none: missed the tape' }),
    ),
  ].toSorted((one, other) => one.place - other.place);
}

/** None for a zero. */
function axisOf({ frame }: TargetFigure, axis: 'right' | 'up', value: number): Shot['axes'] {
  const { bare, mark } = lengthsIn(frame.units);
  const amount = mark(Math.abs(value));
  if (bare(Math.abs(value)) === bare(0)) return [];
  const sides = sidesOf(frame, false);
  const side: Side = axis === 'right' ? (value < 0 ? sides.left : sides.right) : value < 0 ? sides.bottom : sides.top;
  if (isVertical(frame.runs)) return [{ amount: `${amount} ${side.machine}` }];
  return [{ amount: `${amount} ${side.viewer}`, ...(side.viewer !== side.machine && { machine: side.machine }) }];
}
