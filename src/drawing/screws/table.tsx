/** A mount's face as a table of numbers. */
import { lengthsIn, type Axes, type ScrewsFigure, type Units } from '../../model/index.ts';
import { movesInWords, turnInFull } from './words.ts';

/** The screws of a mount as a table. */
export function ScrewsTable({ figure }: { readonly figure: ScrewsFigure }) {
  const { units } = figure.mark.frame;
  return (
    <table>
      <caption>{`Screws of ${figure.part}, places in ${lengthsIn(units).unit} from the centre of the mirror, facing the screw heads`}</caption>
      <thead>
        <tr>
          {['screw', 'place', 'turn', 'effect'].map((head) => (
            <th key={head} scope="col">
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {figure.screws.map((screw) => (
          <tr key={screw.name}>
            <th scope="row">{screw.name}</th>
            <td>{screw.place ? placeInWords(screw.place, units) : 'not known'}</td>
            <td>{screw.turns === 0 ? 'no' : turnInFull(screw, figure)}</td>
            <td>{movesInWords(screw, figure)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** Facing the heads: `22 left, 22 up`. */
function placeInWords({ right, up }: Axes, units: Units): string {
  const { drawn } = lengthsIn(units);
  return `${drawn(Math.abs(right))} ${right < 0 ? 'left' : 'right'}, ${drawn(Math.abs(up))} ${up < 0 ? 'down' : 'up'}`;
}
