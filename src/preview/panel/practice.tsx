/** What a practice machine adds to the panel: its strip, what is expected, the comparison, and advice that is asked for. */
import { useState } from 'preact/hooks';
import type { PracticeComparison, PracticeView } from '../../model/index.ts';
import type { Readable } from './reading.ts';

/** Pixels: it stays above everything, whatever scrolls. */
export const PRACTICE_STRIP = 26;

export function PracticeStrip({ practice: { words } }: { readonly practice: PracticeView }) {
  return (
    <section class="practice-strip" aria-label="Practice">
      <b>PRACTICE</b>
      <span>{words}</span>
    </section>
  );
}

interface PracticeBenchProps {
  readonly practice: PracticeView;
  /** The blank that is asked for, and whether its tape is fired. */
  readonly asked: Readable | undefined;
  readonly isFired: boolean;
  /** There is a mark under the cross. */
  readonly isAimed: boolean;
  onFire(expected: string): void;
  onLog(): void;
  onShoot(): void;
  onAsk(): void;
  onClose(): void;
}

export function PracticeBench(props: PracticeBenchProps) {
  const { practice, asked, isFired } = props;
  const { shoot, asks, isClosed, compared, expected } = practice;
  return (
    <section class="practice" aria-label="Practice bench">
      {asked && !isFired && <Fire key={`${asked.slot.cell} ${asked.slot.path}`} {...props} asked={asked} />}
      {asked && isFired && (
        <>
          <h2>Your expectation</h2>
          <p>
            {expected ?? 'Not written.'} <span class="pale">It is drawn after you log.</span>
          </p>
          <p class="pale">
            Put the cross on the middle of the burn, not on its smoke. Pencil ticks are 1 mm, long ones 5.
          </p>
          <div class="row">
            <button type="button" class="main" disabled={!props.isAimed} onClick={props.onLog}>
              Log Mark
            </button>
          </div>
        </>
      )}
      {!asked && compared.length > 0 && <Compared {...practice} />}
      <div class="row">
        {shoot && (
          <button type="button" onClick={props.onShoot}>
            {`Shoot ${shoot.station}`}
          </button>
        )}
        {!asked && (
          <button type="button" onClick={props.onClose}>
            Closing Sheet
          </button>
        )}
        <button type="button" disabled={!isClosed} onClick={props.onAsk}>
          Show Advice <span class="pale">{`· asked ${asks} ${asks === 1 ? 'time' : 'times'}`}</span>
        </button>
      </div>
    </section>
  );
}

/** The expectation comes before the tape: afterwards it would be none. */
function Fire({ asked, onFire }: PracticeBenchProps & { readonly asked: Readable }) {
  const [words, setWords] = useState('');
  return (
    <form
      class="fire"
      onSubmit={(event) => {
        event.preventDefault();
        onFire(words.trim());
      }}
    >
      <label>
        {`What do you expect at ${asked.name}? Write it before you fire.`}
        <input
          type="text"
          value={words}
          placeholder="1.0 left 2.0 up"
          onInput={({ currentTarget }) => setWords(currentTarget.value)}
        />
      </label>
      <button type="submit" class="main">
        Fire
      </button>
    </form>
  );
}

function Compared({ compared, misread, taught }: PracticeView) {
  return (
    <>
      <div class="scroll">
        <table class="compared">
          <thead>
            <tr>
              <th scope="col">read and compared</th>
              {compared.map(({ name }) => (
                <th scope="col" key={name}>
                  {name}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {ROWS.map(([head, of]) => (
              <tr key={head}>
                <th scope="row">{head}</th>
                {compared.map((one) => (
                  <td key={one.name}>{of(one) ?? '–'}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p class="pale">{`Your last readings were off by: ${misread.join(', ')} mm`}</p>
      {taught !== undefined && (
        <>
          <h2>
            What the turn taught <span>from marks alone, the machine stays closed</span>
          </h2>
          <p>{taught}</p>
        </>
      )}
    </>
  );
}

const ROWS: readonly (readonly [string, (of: PracticeComparison) => string | undefined])[] = [
  ['E you expected', ({ expected }) => expected],
  ['▪ you read', ({ read }) => read],
  ['+ it came', ({ came }) => came],
  ['reading off', ({ misread }) => misread],
  ['expecting off', ({ surprise }) => surprise],
];
