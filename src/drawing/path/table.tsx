/** The beam path as a table of numbers. */
import type { PathFigure } from '../../model/index.ts';
import { beamInWords, clearanceInWords, clearanceOfWhat, leastClearance } from './words.ts';

/** The beam path as a table. */
export function PathTable({ figure }: { readonly figure: PathFigure }) {
  const { machine, place, parts, isMoved, units } = figure;
  const heads = [
    'element',
    'beam',
    ...(isMoved ? ['after the advised step'] : []),
    'least clearance',
    ...(isMoved ? ['then'] : []),
  ];
  return (
    <table>
      <caption>{`Beam path of ${machine}${place === '' ? '' : `, ${place}`}; clearance ${clearanceOfWhat(figure)}, the least along the travel`}</caption>
      <thead>
        <tr>
          {heads.map((head) => (
            <th key={head} scope="col">
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {parts.map((part) => (
          <tr key={part.name}>
            <th scope="row">{part.name}</th>
            <td>{`${beamInWords(part, 'mark')}${part.isMeasured ? '' : ', not measured'}`}</td>
            {isMoved && <td>{beamInWords(part, 'then')}</td>}
            <td>{clearanceInWords(leastClearance(part.clearance, 'now'), units)}</td>
            {isMoved && <td>{clearanceInWords(leastClearance(part.clearance, 'then'), units)}</td>}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
