/** Below marks: the tape, and beside it the verdict, each limit, and the shots in both names of their sides. */
import type { MarksView, RequirementRow } from '../../model/index.ts';
import { lettersOf, Sign } from '../sign.tsx';
import { Tape } from '../target/tape.tsx';
import { VerdictIn } from '../verdict.tsx';
import { shotsIn, type Shot } from './shots.ts';

/** Pixels. */
const TAPE = 190;

export function MarksSheet({ view }: { readonly view: MarksView }) {
  const { figure, state, word, detail, requirements, slope } = view;
  const letters = lettersOf(figure.places);
  return (
    <div class="sheet figure row">
      <Tape figure={figure} size={TAPE} />
      <div class="facts">
        <p class="verdict">
          <svg class="figure" width="18" height="18" viewBox="0 0 16 16" aria-hidden="true">
            <VerdictIn state={state} />
          </svg>
          <b class={`state ${state}`}>{word}</b>
          {detail !== undefined && <span>{detail}</span>}
        </p>
        {requirements.length > 0 && <Requirements rows={requirements} slope={slope} />}
        {requirements.length === 0 && slope && (
          <p>
            {slope.name} {slope.words}
          </p>
        )}
        <ul class="shots" aria-label={`Shots on ${figure.station}`}>
          {shotsIn(figure).map((shot) => (
            <ShotRow key={shot.place} shot={shot} letter={letters[shot.place]!} />
          ))}
        </ul>
      </div>
    </div>
  );
}

function Requirements({
  rows,
  slope,
}: {
  readonly rows: readonly RequirementRow[];
  readonly slope: MarksView['slope'] | undefined;
}) {
  return (
    <table>
      <thead>
        <tr>
          <td />
          <th scope="col">read</th>
          <th scope="col">limit</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ name, value, limit, isPredicted }) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            <td>{value === undefined ? 'not known' : `${value}${isPredicted ? ', predicted' : ''}`}</td>
            <td>{limit}</td>
          </tr>
        ))}
        {slope && (
          <tr>
            <th scope="row">{slope.name}</th>
            <td colSpan={2}>{slope.words}</td>
          </tr>
        )}
      </tbody>
    </table>
  );
}

function ShotRow({ shot, letter }: { readonly shot: Shot; readonly letter: string }) {
  const { place, name, axes, words, isStale } = shot;
  return (
    <li>
      <svg class="figure" width="18" height="18" viewBox="-9 -10 18 20" aria-hidden="true">
        <Sign x={0} y={0} place={place} letter={letter} hollow={isStale} />
      </svg>
      {name !== '' && <span class="place">{name}</span>}
      {axes.map(({ amount, machine }) => (
        <span key={amount} class="axis">
          <b>{amount}</b>
          {machine !== undefined && <small>machine {machine}</small>}
        </span>
      ))}
      {words !== undefined && <span>{words}</span>}
    </li>
  );
}
