/** Trial turns of screws: nothing is logged until the user logs it. */
import { turnInCell, type PanelView, type TriedTurn } from '../../model/index.ts';

interface TryingProps {
  readonly screws: PanelView['screws'];
  readonly turns: readonly TriedTurn[];
  onTry(turns: readonly TriedTurn[]): void;
  onAdd(): void;
}

/** Turns: the finest step that a hand can do, and a reasonable maximum. */
const STEP = 1 / 16;
const MOST = 2;

export function Trying({ screws, turns, onTry, onAdd }: TryingProps) {
  const nearest = screws[0]!.part;
  const of = (part: string, screw: string) =>
    turns.find((turn) => turn.part === part && turn.screw === screw)?.turns ?? 0;
  const set = (part: string, screw: string, amount: number) =>
    onTry(
      [...turns.filter((turn) => turn.part !== part || turn.screw !== screw), { part, screw, turns: amount }].filter(
        (turn) => turn.turns !== 0,
      ),
    );
  const row = ({ part, screw }: TryingProps['screws'][number]) => {
    const amount = of(part, screw);
    return (
      <label class="screw" key={`${part} ${screw}`}>
        <span>{`${part} ${screw}`}</span>
        <input
          type="range"
          min={-MOST}
          max={MOST}
          step={STEP}
          value={amount}
          aria-valuetext={inWords(amount)}
          onInput={({ currentTarget }) => set(part, screw, Number(currentTarget.value))}
        />
        <span>{inWords(amount)}</span>
      </label>
    );
  };
  const others = screws.filter(({ part }) => part !== nearest);
  return (
    <section aria-labelledby="trying">
      <h2 id="trying">Try a screw turn</h2>
      {screws.filter(({ part }) => part === nearest).map(row)}
      {others.length > 0 && (
        <details>
          <summary>{`screws of ${[...new Set(others.map(({ part }) => part))].join(', ')}`}</summary>
          {others.map(row)}
        </details>
      )}
      {turns.length > 0 && (
        <div class="row">
          <button type="button" onClick={onAdd}>
            Log These Turns
          </button>
          <button type="button" onClick={() => onTry([])}>
            Clear These Turns
          </button>
          <span>Trial, not logged: the crosses on the tape show the predicted marks.</span>
        </div>
      )}
    </section>
  );
}

function inWords(turns: number): string {
  return turns === 0 ? 'not turned' : turnInCell(turns);
}
