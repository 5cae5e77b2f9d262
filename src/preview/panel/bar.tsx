/** What the tape shows: the station, the round, this round or the whole visit, along the beam or from behind. */
import { useState } from 'preact/hooks';
import type { PanelView } from '../../model/index.ts';

interface BarProps {
  readonly figure: PanelView['figure'];
  /** `trying`, `as found`; while a mark is read it is what stands instead of the round: `1 of 2 read`. */
  readonly note: string;
  readonly isReading: boolean;
  readonly isNarrow: boolean;
  readonly whole: boolean;
  readonly behind: boolean;
  onRound(round: number): void;
  onWhole(whole: boolean): void;
  onBehind(behind: boolean): void;
}

export function Bar({ figure, note, isReading, isNarrow, whole, behind, onRound, onWhole, onBehind }: BarProps) {
  const [isOpen, setOpen] = useState(false);
  const rounds = <Switch name="Marks" words={['This round', 'Whole visit']} second={whole} onChange={onWhole} />;
  return (
    <div class="bar">
      <div class="of">
        <b>{figure.station}</b>
        {!isReading && <Rounds figure={figure} onRound={onRound} />}
        {note !== '' && <span class="pale note">{`· ${note}`}</span>}
      </div>
      {!isNarrow && rounds}
      <Switch name="View" words={[isNarrow ? 'Along' : 'Along beam', 'Behind']} second={behind} onChange={onBehind} />
      {isNarrow && (
        <div class="more">
          <button type="button" aria-label="More" aria-expanded={isOpen} onClick={() => setOpen(!isOpen)}>
            …
          </button>
          {isOpen && <div class="menu">{rounds}</div>}
        </div>
      )}
    </div>
  );
}

function Rounds({ figure: { first, round, rounds }, onRound }: Pick<BarProps, 'figure' | 'onRound'>) {
  if (rounds === 0) return <span class="pale">· not shot</span>;
  if (rounds === first) return <span class="pale">{`· round ${round}`}</span>;
  return (
    <span class="rounds">
      <button type="button" aria-label="Previous round" disabled={round <= first} onClick={() => onRound(round - 1)}>
        ‹
      </button>
      <span class="pale" aria-live="polite">{`round ${round} of ${rounds}`}</span>
      <button type="button" aria-label="Next round" disabled={round >= rounds} onClick={() => onRound(round + 1)}>
        ›
      </button>
    </span>
  );
}

interface SwitchProps {
  readonly name: string;
  readonly words: readonly [first: string, second: string];
  readonly second: boolean;
  onChange(second: boolean): void;
}

function Switch({ name, words, second, onChange }: SwitchProps) {
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset is no flexible box
    <div class="switch" role="group" aria-label={name}>
      {words.map((word, k) => (
        <button type="button" key={word} aria-pressed={second === (k === 1)} onClick={() => onChange(k === 1)}>
          {word}
        </button>
      ))}
    </div>
  );
}
