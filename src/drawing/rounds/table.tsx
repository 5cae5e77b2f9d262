/** A station's rounds as a table of numbers. */
import { lengthsIn, type RoundsFigure } from '../../model/index.ts';
import { sessionInWords, stateInWords } from './words.ts';

/** The rounds of a station as a table. */
export function RoundsTable({ figure }: { readonly figure: RoundsFigure }) {
  const { station, limits, rounds, units } = figure;
  const { unit, given, measured } = lengthsIn(units);
  const bound = (of: 'centre' | 'spread') => (limits[of] === undefined ? of : `${of}, limit ${given(limits[of])}`);
  return (
    <table>
      <caption>{`Rounds on ${station}; lengths in ${unit}`}</caption>
      <thead>
        <tr>
          {['session', 'round', bound('centre'), bound('spread'), 'missed', 'state'].map((head) => (
            <th key={head} scope="col">
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rounds.map(({ session, round, centre, spread, missed, state }) => (
          <tr key={`${session} ${round}`}>
            <td>{sessionInWords(figure, session)}</td>
            <th scope="row">{round}</th>
            <td>{centre ? measured(centre) : ''}</td>
            <td>{spread ? measured(spread) : ''}</td>
            <td>{missed === 0 ? '' : missed}</td>
            <td>{stateInWords(state)}</td>
          </tr>
        ))}
        {rounds.length === 0 && (
          <tr>
            <td colSpan={6}>Nothing was shot.</td>
          </tr>
        )}
      </tbody>
    </table>
  );
}
