import type { TargetFigure, TextPlace } from '../../model/index.ts';
import type { TapeScale } from './scale.ts';

export interface MarksProps {
  readonly figure: TargetFigure;
  readonly scale: TapeScale;
  readonly behind: boolean;
  readonly letters: readonly string[];
  /** The place in the text that is selected there. */
  readonly selected?: TextPlace | undefined;
  readonly onSelect?: ((mark: TextPlace) => void) | undefined;
}
