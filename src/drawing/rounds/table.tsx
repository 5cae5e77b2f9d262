/** The numbers of a station's rounds as a table. */
import type { RoundsFigure } from '../../model/index.ts';
import { mm } from '../number.ts';
import { amountInWords, sessionInWords } from './words.ts';

export function RoundsTable({ figure }: { readonly figure: RoundsFigure }) {
  const { station, limits, rounds } = figure;
  const bound = (of: 'centre' | 'spread') => (limits[of] === undefined ? of : `${of}, limit ${mm(limits[of])}`);
  return (
    <table>
      <caption>{`Rounds on ${station}; lengths in mm`}</caption>
      <thead><tr>{['session', 'round', bound('centre'), bound('spread'), 'missed', 'state'].map((head) => <th key={head} scope="col">{head}</th>)}</tr></thead>
      <tbody>
        {rounds.map(({ session, round, centre, spread, missed, state }) => (
          <tr key={`${session} ${round}`}>
            <td>{sessionInWords(figure, session)}</td>
            <th scope="row">{round}</th>
            <td>{centre ? amountInWords(centre) : ''}</td>
            <td>{spread ? amountInWords(spread) : ''}</td>
            <td>{missed === 0 ? '' : missed}</td>
            <td>{state === 'stale' ? 'not all places shot' : state}</td>
          </tr>
        ))}
        {rounds.length === 0 && <tr><td colSpan={6}>Nothing was shot.</td></tr>}
      </tbody>
    </table>
  );
}
