/** Selects the station, and shows the state of each. */
import type { PanelView } from '../../model/index.ts';

interface StationsProps {
  readonly stations: PanelView['stations'];
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
