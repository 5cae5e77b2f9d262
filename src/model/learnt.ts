/**
 * What the marks show about this machine beyond its description. Lengths mm, angles rad, turns in turns (positive =
 * in); every `u` is a standard uncertainty in the unit of its value.
 */
import type { Axes } from './axes.ts';
import type { Direction } from './quantity.ts';

/** An offset or tilt toward one direction of the machine; `by` is positive. */
export interface Off {
  readonly toward: Direction;
  readonly by: number;
  readonly u: number;
}

/** An estimate of one property of the machine. */
export type LearntFact =
  /** The effect of a turn as a ratio to that from pitch and lever arm; negative if reversed. */
  | {
      readonly kind: 'screw';
      readonly part: string;
      readonly screw: string;
      readonly share: number;
      readonly u: number;
    }
  /** For a screw of unknown place: how far these turns move a mark, viewer's frame. */
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
  /** The deviation of a carriage's rail from the line through its ends, halfway. */
  | { readonly kind: 'rail'; readonly element: string; readonly rides: string; readonly off: readonly Off[] }
  /** The rotation of a carriage from the nearest to the farthest of its stops, right-handed about a machine axis. */
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

/** The same, with a sentence. */
export type Learnt = LearntFact & { readonly say: string };
