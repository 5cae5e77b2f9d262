/** The usual cautions of the steps that are to be done now: none where nothing fires, and neither tube nor lens is touched. */
import { cautions } from '../../shared/cautions.ts';
import type { Step } from '../model/index.ts';

export function cautionsFor(steps: readonly Step[]): { readonly fires: boolean; readonly lines: readonly string[] } {
  const fires = steps.some(({ kind }) => kind === 'shoot');
  const isTube = steps.some((step) => step.kind === 'shift' && step.part === 'tube');
  const isLens = steps.some(({ handlesLens }) => handlesLens);
  const lines = [...(isTube ? cautions.tube : []), ...(isLens ? cautions.lens : []), ...(fires ? cautions.fire : [])];
  return { fires, lines: lines.length > 0 ? [...lines, ...cautions.defer] : [] };
}
