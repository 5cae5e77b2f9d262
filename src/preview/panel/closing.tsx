/** The closing sheet: the learner's way beside the short one, what it took, and two sentences to take along. */
import { Ways } from '../../drawing/index.ts';
import type { ClosingSheet } from '../../model/index.ts';

interface ClosingProps {
  readonly sheet: ClosingSheet;
  readonly width: number;
  onAgain(level: number): void;
  onBack(): void;
}

const HIGHEST = 5;
const WIDEST = 520;

export function Closing({ sheet, width, onAgain, onBack }: ClosingProps) {
  const { level, title, why, rows, take, isTruly } = sheet;
  return (
    <section class="closing-sheet" aria-label="Closing sheet">
      <h1 class="sentence">{title}</h1>
      <p>{why}</p>
      <h2>
        Your way and the shortest <span>the same machine, from the same start</span>
      </h2>
      <Ways sheet={sheet} width={Math.min(WIDEST, width)} />
      <table>
        <thead>
          <tr>
            <th />
            <th scope="col">yours</th>
            <th scope="col">shortest</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ name, yours, shortest }) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              <td>
                <b>{yours}</b>
              </td>
              <td>{shortest}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <h2>Take with you</h2>
      {take.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      <div class="row">
        {isTruly && level < HIGHEST && (
          <button type="button" class="main" onClick={() => onAgain(level + 1)}>
            {`Level ${level + 1}`}
          </button>
        )}
        <button type="button" onClick={() => onAgain(level)}>
          {`Level ${level} Again, Another Seed`}
        </button>
        <button type="button" onClick={onBack}>
          Back to the Tape
        </button>
      </div>
    </section>
  );
}
