/** The sheet of a workbook in a page: what to do next, a station's target, marks to place, screws to try, the path of the beam. */
import { useEffect, useReducer, useState } from 'preact/hooks';
import type { FromPanel, Sheet, SheetAsked, TextPlace, ToPanel, TriedTurn } from '../../model/index.ts';
import { PathTable, Rounds, RoundsTable, Screws, ScrewsTable, TargetTable } from '../../drawing/index.ts';
import { Carriages } from './carriages.tsx';
import { keptIn, type Kept } from './kept.ts';
import { Stations } from './stations.tsx';
import { Tape } from './tape.tsx';
import { Trying } from './trying.tsx';

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

/** Pixels of a mount's face, and of what is drawn over time or along the beam. */
const WIDTH = 300;

export function App({ say, listen, kept, keep }: AppProps) {
  const [{ uri, file, sheet, selected }, hear] = useReducer(heard, { selected: null });
  const [asked, setAsked] = useState<SheetAsked>(() => ({ station: keptIn(kept).station, round: keptIn(kept).round }));
  const [behind, setBehind] = useState(keptIn(kept).behind ?? false);
  const ask = (next: SheetAsked) => {
    setAsked(next);
    say({ type: 'ask', of: uri, ...next });
  };
  useEffect(() => {
    listen(hear);
    say({ type: 'ask', of: keptIn(kept).uri, ...asked });
  }, []);
  useEffect(() => {
    if (uri !== undefined) keep({ uri, behind, ...(sheet && { station: sheet.figure.station }), ...(asked.round !== undefined && { round: asked.round }) });
  }, [uri, behind, sheet, asked.round]);

  if (sheet === undefined) return <p>{file === undefined ? 'Open a workbook to see its targets.' : ''}</p>;
  if (sheet === null) return <p>{`${file ?? ''}: no machine is described yet, so there is nothing to draw.`}</p>;
  const { figure, brief, verdict, canAdd, stations, screws, mounts, rounds, path, light, hasVisits, drift } = sheet;
  const turns = asked.station === undefined || asked.station === figure.station ? (asked.turns ?? []) : [];
  return (
    <>
      <h1>{file}</h1>
      <p class={`next ${verdict}`} aria-live="polite">{brief}</p>
      {canAdd && <button class="main" onClick={() => say({ type: 'addStep' })}>Write this step down…</button>}
      <Stations stations={stations} shown={figure.station} onChoose={(station) => ask({ station, legs: asked.legs, visits: asked.visits })} />
      <div class="row">
        {figure.rounds > 1 && <Round round={figure.round} rounds={figure.rounds} onChoose={(round) => ask({ station: figure.station, round, legs: asked.legs, visits: asked.visits })} />}
        <label><input type="checkbox" checked={behind} onChange={() => setBehind(!behind)} /> seen from behind</label>
      </div>
      <Tape key={figure.station} sheet={sheet} behind={behind} selected={selected ?? undefined} onSelect={({ cell, path }) => say({ type: 'select', cell, path })} onPlace={(place) => say({ type: 'place', ...place })} />
      {figure.round === figure.rounds && mounts.map((mount) => <Screws key={mount.part} figure={mount} width={WIDTH} />)}
      {screws.length > 0 && figure.round === figure.rounds && (
        <Trying screws={screws} turns={turns} onTry={(tried: readonly TriedTurn[]) => ask({ ...asked, station: figure.station, round: undefined, turns: tried })} onAdd={() => {
          setAsked({ station: figure.station });
          say({ type: 'addTried' });
        }} />
      )}
      {rounds && <section aria-labelledby="rounds"><h2 id="rounds">Round after round</h2><Rounds figure={rounds} width={WIDTH} /></section>}
      {light.length > 0 && <section><h2>The beam here</h2><Lines of={light} /></section>}
      {hasVisits && (
        <details open={asked.visits ?? false} onToggle={({ currentTarget: { open } }) => open !== (asked.visits ?? false) && ask({ ...asked, station: figure.station, turns, visits: open })}>
          <summary>Since the visit before</summary>
          {drift && <Lines of={drift} />}
        </details>
      )}
      {path && <Carriages figure={path} width={WIDTH} onMove={(legs) => ask({ ...asked, station: figure.station, turns, legs })} />}
      <details>
        <summary>The same in numbers</summary>
        <div class="scroll" tabIndex={0} role="region" aria-label="Numbers"><TargetTable figure={figure} />{mounts.map((mount) => <ScrewsTable key={mount.part} figure={mount} />)}{rounds && <RoundsTable figure={rounds} />}{path && <PathTable figure={path} />}</div>
      </details>
    </>
  );
}

function Lines({ of }: { readonly of: readonly string[] }) {
  return <ul>{of.map((line) => <li key={line}>{line}</li>)}</ul>;
}

function Round({ round, rounds, onChoose }: { readonly round: number; readonly rounds: number; onChoose(round: number): void }) {
  return (
    <label>
      {`round ${round} of ${rounds} `}
      <input type="range" min={1} max={rounds} step={1} value={round} aria-valuetext={`round ${round} of ${rounds}`} onInput={({ currentTarget }) => onChoose(Number(currentTarget.value))} />
    </label>
  );
}
