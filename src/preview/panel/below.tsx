/** What is below the tape: the screws, trial turns, rounds, light, the path, and all of it in numbers. */
import { useState } from 'preact/hooks';
import { PathTable, Rounds, RoundsTable, Screws, ScrewsTable, TargetTable } from '../../drawing/index.ts';
import type { PanelView, PanelOptions, TriedTurn } from '../../model/index.ts';
import { Carriages } from './carriages.tsx';
import { useAvailableWidth } from './available-width.ts';
import { Trying } from './trying.tsx';

interface BelowProps {
  readonly view: PanelView;
  readonly options: PanelOptions;
  request(next: PanelOptions): void;
  onAddTried(): void;
}

/** Pixels of a mount's face, and of the charts. */
const WIDEST = 300;

export function Below({ view, options, request, onAddTried }: BelowProps) {
  const { figure, screws, mounts, rounds, path, light, hasVisits, drift } = view;
  const width = Math.min(WIDEST, useAvailableWidth());
  const isLast = figure.round === figure.rounds;
  const turns = options.station === undefined || options.station === figure.station ? (options.turns ?? []) : [];
  const here = { ...options, station: figure.station, turns };
  return (
    <>
      {isLast && mounts.map((mount) => <Screws key={mount.part} figure={mount} width={width} />)}
      {isLast && screws.length > 0 && (
        <Trying
          screws={screws}
          turns={turns}
          onTry={(tried: readonly TriedTurn[]) => request({ ...here, round: undefined, turns: tried })}
          onAdd={onAddTried}
        />
      )}
      {rounds && (
        <section aria-labelledby="rounds">
          <h2 id="rounds">Round after round</h2>
          <Rounds figure={rounds} width={width} />
        </section>
      )}
      {light.length > 0 && (
        <section>
          <h2>Beam at this station</h2>
          <Lines of={light} />
        </section>
      )}
      {hasVisits && (
        <details
          open={options.visits ?? false}
          onToggle={({ currentTarget: { open } }) =>
            open !== (options.visits ?? false) && request({ ...here, visits: open })
          }
        >
          <summary>Visits, drift</summary>
          {drift && <Lines of={drift} />}
        </details>
      )}
      {path && <Carriages figure={path} width={width} onMove={(legs) => request({ ...here, legs })} />}
      <Numbers view={view} />
    </>
  );
}

/** The tables are rendered when they are opened: they are longer than all the rest. */
function Numbers({ view: { figure, mounts, rounds, path } }: { readonly view: PanelView }) {
  const [isOpen, setOpen] = useState(false);
  return (
    <details onToggle={({ currentTarget: { open } }) => setOpen(open)}>
      <summary>In numbers</summary>
      {isOpen && (
        // biome-ignore lint/a11y: a region that scrolls is reached by the keyboard
        <div class="scroll" tabIndex={0} role="region" aria-label="Numbers">
          <TargetTable figure={figure} />
          {mounts.map((mount) => (
            <ScrewsTable key={mount.part} figure={mount} />
          ))}
          {rounds && <RoundsTable figure={rounds} />}
          {path && <PathTable figure={path} />}
        </div>
      )}
    </details>
  );
}

function Lines({ of }: { readonly of: readonly string[] }) {
  return (
    <ul>
      {of.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  );
}
