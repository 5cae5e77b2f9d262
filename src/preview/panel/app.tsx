/** The panel's page: what to do next, a station's target, marks to place, screws to try, the beam path. */
import { useEffect, useReducer, useState } from 'preact/hooks';
import type { FromPanel, PanelView, PanelOptions, TextPlace, ToPanel } from '../../model/index.ts';
import { Below } from './below.tsx';
import { panelStateFrom, type PanelState } from './panel-state.ts';
import { Stations } from './stations.tsx';
import { Tape } from './tape.tsx';

export interface AppProps {
  send(message: FromPanel): void;
  listen(receive: (message: ToPanel) => void): void;
  readonly storedState: unknown;
  storeState(state: PanelState): void;
}

interface Received {
  readonly uri?: string;
  readonly file?: string;
  readonly sheet?: PanelView | null;
  readonly selected: TextPlace | null;
}

function receive(received: Received, message: ToPanel): Received {
  if (message.type === 'selected') return { ...received, selected: message.mark };
  return { ...received, uri: message.uri, file: message.file, sheet: message.sheet };
}

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: the page from top to bottom
export function App({ send, listen, storedState, storeState }: AppProps) {
  const [{ uri, file, sheet: view, selected }, receiveMessage] = useReducer(receive, { selected: null });
  const [options, setOptions] = useState<PanelOptions>(() => ({
    station: panelStateFrom(storedState).station,
    round: panelStateFrom(storedState).round,
  }));
  const [behind, setBehind] = useState(panelStateFrom(storedState).behind ?? false);
  // The tape is drawn first, without waiting for what is below it.
  const [isTapeShown, setTapeShown] = useState(false);
  useEffect(() => setTapeShown(Boolean(view)), [Boolean(view)]);
  const request = (next: PanelOptions) => {
    setOptions(next);
    send({ type: 'ask', of: uri, ...next });
  };
  useEffect(() => {
    listen(receiveMessage);
    send({ type: 'ask', of: panelStateFrom(storedState).uri, ...options });
  }, []);
  useEffect(() => {
    if (uri !== undefined)
      storeState({
        uri,
        behind,
        ...(view && { station: view.figure.station }),
        ...(options.round !== undefined && { round: options.round }),
      });
  }, [uri, behind, view, options.round]);

  if (view === undefined)
    return <p>{panelStateFrom(storedState).uri === undefined ? 'Open a workbook to see its targets.' : ''}</p>;
  if (view === null) return <p>{`${file ?? ''} describes no machine yet, so there is nothing to draw.`}</p>;
  const { figure, brief, why, verdict, canAdd, stations } = view;
  return (
    <>
      <h1>{file}</h1>
      <p class={`next ${verdict}`} aria-live="polite">
        {brief}
      </p>
      {why !== undefined && <p>{why}</p>}
      {canAdd && (
        <button type="button" class="main" onClick={() => send({ type: 'addStep' })}>
          Log Step…
        </button>
      )}
      <Stations
        stations={stations}
        shown={figure.station}
        onChoose={(station) => request({ station, legs: options.legs, visits: options.visits })}
      />
      <div class="row">
        {figure.rounds > figure.first && (
          <Round
            {...figure}
            onChoose={(round) =>
              request({ station: figure.station, round, legs: options.legs, visits: options.visits })
            }
          />
        )}
        <label>
          <input type="checkbox" checked={behind} onChange={() => setBehind(!behind)} /> seen from behind
        </label>
      </div>
      <Tape
        key={figure.station}
        view={view}
        behind={behind}
        selected={selected ?? undefined}
        onSelect={({ cell, path }) => send({ type: 'select', cell, path })}
        onPlace={(place) => send({ type: 'place', ...place })}
      />
      {isTapeShown && (
        <Below
          view={view}
          options={options}
          request={request}
          onAddTried={() => {
            setOptions({ station: figure.station });
            send({ type: 'addTried' });
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
}: Pick<PanelView['figure'], 'first' | 'round' | 'rounds'> & { onChoose(round: number): void }) {
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
