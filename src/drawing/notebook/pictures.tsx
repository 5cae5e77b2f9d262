import type { MarksView, ScrewsFigure, TargetFigure } from '../../model/index.ts';
import { Screws } from '../screws/screws.tsx';
import { Target } from '../target/target.tsx';

export function PicturedTape({ figure }: { readonly figure: TargetFigure }) {
  return <Target figure={figure} width={190} />;
}
export function PicturedPlate({ figure }: { readonly figure: ScrewsFigure }) {
  return <Screws figure={figure} width={150} />;
}
export function StateSign({ state }: { readonly state: MarksView['state'] }) {
  return (
    <svg class="figure" width="16" height="16">
      <circle cx="8" cy="8" r="6" class="ink">
        <title>{state}</title>
      </circle>
    </svg>
  );
}
