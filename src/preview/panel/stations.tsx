/** Which station is shown, and how each stands. */
import type { Sheet } from '../../model/index.ts';

interface StationsProps {
  readonly stations: Sheet['stations'];
  readonly shown: string;
  onChoose(station: string): void;
}

export function Stations({ stations, shown, onChoose }: StationsProps) {
  return (
    <fieldset>
      <legend>station</legend>
      {stations.map(({ name, words }) => (
        <label key={name}>
          <input type="radio" name="station" checked={name === shown} onChange={() => onChoose(name)} />
          {`${name}: ${words}`}
        </label>
      ))}
    </fieldset>
  );
}
