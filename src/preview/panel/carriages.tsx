/** The beam path, with sliders for its carriages. */
import { lengthsIn, type PathFigure, type Units } from '../../model/index.ts';
import { Path } from '../../drawing/index.ts';

interface CarriagesProps {
  readonly figure: PathFigure;
  /** Pixels. */
  readonly width: number;
  onMove(legs: Readonly<Record<string, number>>): void;
}

/** Steps over the whole travel. */
const STEPS = 40;

export function Carriages({ figure, width, onMove }: CarriagesProps) {
  const legs = Object.fromEntries(figure.carriages.map(({ element, leg }) => [element, leg]));
  return (
    <>
      {figure.carriages
        .filter(({ shortest, longest }) => shortest < longest)
        .map(({ element, rides, leg, shortest, longest }) => (
          <label class="carriage" key={element}>
            <span>{rides}</span>
            <span class="track">
              <i class="line" />
              <input
                type="range"
                min={shortest}
                max={longest}
                step={(longest - shortest) / STEPS}
                value={leg}
                aria-valuetext={inWords(leg, figure.units)}
                onInput={({ currentTarget }) => onMove({ ...legs, [element]: Number(currentTarget.value) })}
              />
            </span>
            <span>{inWords(leg, figure.units)}</span>
          </label>
        ))}
      <Path figure={figure} width={width} />
    </>
  );
}

function inWords(leg: number, units: Units): string {
  return lengthsIn(units).short(leg);
}
