/** The sheet of a workbook in a page: what to do next, a station's target, marks to place, screws to try, the path of the beam. */
import { useEffect, useReducer, useState } from 'preact/hooks';
import type { FromPanel, Sheet, SheetAsked, TextPlace, ToPanel } from '../../model/index.ts';
import { Below } from './below.tsx';
import { keptIn, type Kept } from './kept.ts';
import { Stations } from './stations.tsx';
import { Tape } from './tape.tsx';

export interface AppProps {
  say(said: FromPanel): void;
  listen(hear: (said: ToPanel) => void): void;
  readonly kept: unknown;
  keep(state: Kept): void;
}

interface Heard {
  readonly uri?: string;
  readonly file?: string;
  readonly sheet?: Sheet | null;
  readonly selected: TextPlace | null;
}

function heard(so: Heard, said: ToPanel): Heard {
  if (said.type === 'selected') return { ...so, selected: said.mark };
  return { ...so, uri: said.uri, file: said.file, sheet: said.sheet };
}

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: the page from top to bottom
export function App({ say, listen, kept, keep }: AppProps) {
  const [{ uri, file, sheet, selected }, hear] = useReducer(heard, { selected: null });
  const [asked, setAsked] = useState<SheetAsked>(() => ({ station: keptIn(kept).station, round: keptIn(kept).round }));
  const [behind, setBehind] = useState(keptIn(kept).behind ?? false);
  // The tape is looked at first, so it does not wait for what stands below it.
  const [isTapeShown, setTapeShown] = useState(false);
  useEffect(() => setTapeShown(Boolean(sheet)), [Boolean(sheet)]);
  const ask = (next: SheetAsked) => {
    setAsked(next);
    say({ type: 'ask', of: uri, ...next });
  };
  useEffect(() => {
    listen(hear);
    say({ type: 'ask', of: keptIn(kept).uri, ...asked });
  }, []);
  useEffect(() => {
    if (uri !== undefined)
      keep({
        uri,
        behind,
        ...(sheet && { station: sheet.figure.station }),
        ...(asked.round !== undefined && { round: asked.round }),
      });
  }, [uri, behind, sheet, asked.round]);

  if (sheet === undefined) return <p>{keptIn(kept).uri === undefined ? 'Open a workbook to see its targets.' : ''}</p>;
  if (sheet === null) return <p>{`${file ?? ''} describes no machine yet, so there is nothing to draw.`}</p>;
  const { figure, brief, why, verdict, canAdd, stations } = sheet;
  return (
    <>
      <h1>{file}</h1>
      <p class={`next ${verdict}`} aria-live="polite">
        {brief}
      </p>
      {why !== undefined && <p>{why}</p>}
      {canAdd && (
        <button type="button" class="main" onClick={() => say({ type: 'addStep' })}>
          Log Step…
        </button>
      )}
      <Stations
        stations={stations}
        shown={figure.station}
        onChoose={(station) => ask({ station, legs: asked.legs, visits: asked.visits })}
      />
      <div class="row">
        {figure.rounds > figure.first && (
          <Round
            {...figure}
            onChoose={(round) => ask({ station: figure.station, round, legs: asked.legs, visits: asked.visits })}
          />
        )}
        <label>
          <input type="checkbox" checked={behind} onChange={() => setBehind(!behind)} /> seen from behind
        </label>
      </div>
      <Tape
        key={figure.station}
        sheet={sheet}
        behind={behind}
        selected={selected ?? undefined}
        onSelect={({ cell, path }) => say({ type: 'select', cell, path })}
        onPlace={(place) => say({ type: 'place', ...place })}
      />
      {isTapeShown && (
        <Below
          sheet={sheet}
          asked={asked}
          ask={ask}
          onAddTried={() => {
            setAsked({ station: figure.station });
            say({ type: 'addTried' });
          }}
        />
      )}
    </>
  );
}

function Round({
  first,
  round,
  rounds,
  onChoose,
}: Pick<Sheet['figure'], 'first' | 'round' | 'rounds'> & { onChoose(round: number): void }) {
  return (
    <label>
      {`round ${round} of ${rounds} `}
      <input
        type="range"
        min={first}
        max={rounds}
        step={1}
        value={round}
        aria-valuetext={`round ${round} of ${rounds}`}
        onInput={({ currentTarget }) => onChoose(Number(currentTarget.value))}
      />
    </label>
  );
}
