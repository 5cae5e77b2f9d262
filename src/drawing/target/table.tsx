/** A target as a table of numbers. */
import { lengthsIn, type TargetFigure, type TargetMark } from '../../model/index.ts';
import { axesInWords, halfInWords, pointInWords } from './words.ts';

/** The marks of a station as a table. */
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: one table, row by row
export function TargetTable({ figure }: { readonly figure: TargetFigure }) {
  const { station, places, marks, halves, missed, expected, frame } = figure;
  const { unit, drawn, drawnDoubt } = lengthsIn(frame.units);
  const distance = ({ right, up }: { readonly right: number; readonly up: number }) => drawn(Math.hypot(right, up));
  return (
    <table>
      <caption>{`Marks on ${station}, from the centre of the aperture; lengths in ${unit}`}</caption>
      <thead>
        <tr>
          {['place', 'mark', '±', 'distance', 'state'].map((head) => (
            <th key={head} scope="col">
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {marks.toReversed().map((mark, k) => (
          <Row
            key={k}
            place={nameOf(figure, mark.place)}
            words={pointInWords(mark, figure)}
            u={drawnDoubt(mark.u)}
            distance={distance(mark)}
            what={ageInWords(mark)}
          />
        ))}
        {halves.map((half) => (
          <Row
            key={`half ${half.cell} ${half.path}`}
            place={nameOf(figure, half.place)}
            words={halfInWords(half, figure)}
            u={drawnDoubt(half.u)}
            distance=""
            what={half.age === 'stale' ? 'stale' : 'now'}
          />
        ))}
        {missed.map(({ place }) => (
          <Row
            key={`missed ${place}`}
            place={nameOf(figure, place)}
            words="none"
            u=""
            distance=""
            what="the beam missed the tape"
          />
        ))}
        {expected.map((one) => (
          <Row
            key={`next ${one.place}`}
            place={nameOf(figure, one.place)}
            words={pointInWords(one, figure)}
            u={`95 %: ${axesInWords(one, figure)}`}
            distance={distance(one)}
            what="next mark"
          />
        ))}
        {places.length === 0 && (
          <tr>
            <td colSpan={5}>Nothing was shot.</td>
          </tr>
        )}
      </tbody>
    </table>
  );
}

function nameOf({ places }: TargetFigure, place: number): string {
  return places[place]?.full || 'one place only';
}

function ageInWords({ age, round }: TargetMark): string {
  if (age === 'fresh') return 'now';
  if (age === 'stale') return 'stale';
  return round === 1 ? 'as found' : `round ${round}`;
}

interface RowProps {
  readonly place: string;
  readonly words: string;
  readonly u: string;
  readonly distance: string;
  readonly what: string;
}

function Row({ place, words, u, distance, what }: RowProps) {
  return (
    <tr>
      <th scope="row">{place}</th>
      <td>{words}</td>
      <td>{u}</td>
      <td>{distance}</td>
      <td>{what}</td>
    </tr>
  );
}
