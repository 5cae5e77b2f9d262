/** Trial turns of screws, from the advice on: nothing is logged until the user logs it. */
import { useState } from 'preact/hooks';
import { turnInCell, type PanelOptions, type PanelView, type TriedTurn } from '../../model/index.ts';

interface TurningProps {
  readonly view: PanelView;
  readonly options: PanelOptions;
  /** Absent: back to the advice. */
  onTry(turns: readonly TriedTurn[] | undefined): void;
  onLog(): void;
}

/** Turns: the finest step that a hand can do, and what a slider shows unless more is advised. */
const STEP = 1 / 16;
const MOST = 1;
const QUARTERS = 4;

export function Turning({ view, options, onTry, onLog }: TurningProps) {
  const { screws, advised, outlook, triedCell } = view;
  const [areAllShown, showAll] = useState(false);
  const turns = options.turns ?? view.turns;
  const amountOf = (of: readonly TriedTurn[], part: string, screw: string) =>
    of.find((turn) => turn.part === part && turn.screw === screw)?.turns ?? 0;
  const set = (part: string, screw: string, amount: number) =>
    onTry([
      ...turns.filter((turn) => turn.part !== part || turn.screw !== screw),
      ...(amount === 0 ? [] : [{ part, screw, turns: amount }]),
    ]);
  const inQuestion = [...turns, ...advised].map(({ part }) => part);
  const nearest = inQuestion.length > 0 ? inQuestion : screws.slice(0, 1).map(({ part }) => part);
  const shown = screws.filter(({ part }) => areAllShown || nearest.includes(part));
  const isOfOne = new Set(shown.map(({ part }) => part)).size === 1;
  const hasOthers = screws.some(({ part }) => !nearest.includes(part));
  const isTrial = options.turns !== undefined;
  return (
    <div class="turning">
      <h2>
        Try a turn <span>· nothing is logged yet</span>
      </h2>
      {shown.map(({ part, screw }) => (
        <Slider
          key={`${part} ${screw}`}
          name={`${part} ${screw}`}
          label={isOfOne ? screw : `${part} ${screw}`}
          value={amountOf(turns, part, screw)}
          advised={amountOf(advised, part, screw)}
          onChange={(amount) => set(part, screw, amount)}
        />
      ))}
      {outlook.length > 0 && <Outlook outlook={outlook} />}
      <div class="row">
        {isTrial && triedCell !== undefined && (
          <button type="button" onClick={onLog}>
            Log These Turns
          </button>
        )}
        {(hasOthers || areAllShown) && (
          <button type="button" onClick={() => showAll(!areAllShown)} aria-expanded={areAllShown}>
            Other Mirrors
          </button>
        )}
        <button type="button" disabled={!isTrial} onClick={() => onTry(undefined)}>
          Back to Advice
        </button>
      </div>
    </div>
  );
}

interface SliderProps {
  readonly name: string;
  readonly label: string;
  readonly value: number;
  readonly advised: number;
  onChange(turns: number): void;
}

/** Filled from zero; the advice is marked above the track. */
function Slider({ name, label, value, advised, onChange }: SliderProps) {
  const most = Math.max(MOST, Math.ceil(Math.abs(advised)));
  const percent = (turns: number) => 50 + (50 * turns) / most;
  const [from, to] = [Math.min(50, percent(value)), Math.max(50, percent(value))];
  const ticks = Array.from({ length: 2 * most * QUARTERS + 1 }, (_, k) => k / QUARTERS - most);
  return (
    <label class="slider">
      <b>{label}</b>
      <small>out</small>
      <span class="track">
        <i class="line" />
        <i class={value < 0 ? 'fill out' : 'fill in'} style={{ left: `${from}%`, width: `${to - from}%` }} />
        {ticks.map((turns) => (
          <i key={turns} class={turns === 0 ? 'tick zero' : 'tick'} style={{ left: `${percent(turns)}%` }} />
        ))}
        <i class="advice" style={{ left: `${percent(advised)}%` }}>
          ▾
        </i>
        <input
          type="range"
          min={-most}
          max={most}
          step={STEP}
          value={value}
          aria-label={name}
          aria-valuetext={inWords(value)}
          onInput={({ currentTarget }) => onChange(Number(currentTarget.value))}
        />
      </span>
      <small>in</small>
      <b class="amount">{value === 0 ? '0' : turnInCell(value)}</b>
    </label>
  );
}

function inWords(turns: number): string {
  return turns === 0 ? 'not turned' : turnInCell(turns);
}

function Outlook({ outlook }: { readonly outlook: PanelView['outlook'] }) {
  return (
    <table class="outlook">
      <thead>
        <tr>
          <td />
          <th scope="col">now</th>
          <th scope="col">predicted</th>
        </tr>
      </thead>
      <tbody>
        {outlook.map(({ name, now, then }) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            <td>{now}</td>
            <td>
              <b>{then}</b>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
