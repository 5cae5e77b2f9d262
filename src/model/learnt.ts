/**
 * What the marks have taught of this machine that its description does not say. Lengths mm, angles rad, turns in turns
 * (positive = in); every `u` is a standard uncertainty in the unit of its value.
 */
import type { Axes } from './axes.ts';
import type { Direction } from './quantity.ts';

/** How far something stands off where it should, or leans, toward one direction of the machine; `by` is positive. */
export interface Off {
  readonly toward: Direction;
  readonly by: number;
  readonly u: number;
}

export type LearntFact =
  /** What a turn does, as a share of what pitch and place say; negative where it works the other way round. */
  | {
      readonly kind: 'screw';
      readonly part: string;
      readonly screw: string;
      readonly share: number;
      readonly u: number;
    }
  /** Of a screw whose place nobody has written down: how far so many turns move a mark, viewer's frame. */
  | {
      readonly kind: 'effect';
      readonly part: string;
      readonly screw: string;
      readonly turns: number;
      readonly station: string;
      readonly at: string | number;
      readonly with: Readonly<Record<string, string | number>>;
      readonly right: number;
      readonly up: number;
      readonly u: Axes;
    }
  /** Where the beam leaves the tube. */
  | { readonly kind: 'tube'; readonly off: readonly Off[] }
  /** Where the tube points. */
  | { readonly kind: 'inclination'; readonly off: readonly Off[] }
  | { readonly kind: 'aperture'; readonly station: string; readonly off: readonly Off[] }
  /** How far the rail of a carriage is off the line through its ends, halfway. */
  | { readonly kind: 'rail'; readonly element: string; readonly rides: string; readonly off: readonly Off[] }
  /** How far a carriage turns from the nearest to the farthest of its stops, right-handed about an axis of the machine. */
  | {
      readonly kind: 'carriage';
      readonly element: string;
      readonly rides: string;
      readonly axis: 'x' | 'y' | 'z';
      readonly from: string;
      readonly to: string;
      readonly turn: number;
      readonly u: number;
    };

/** The same, in words too. */
export type Learnt = LearntFact & { readonly say: string };
