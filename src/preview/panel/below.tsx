/** What stands below the tape: the screws, what if they were turned, how it went, the light, the path, and all of it in numbers. */
import { useState } from 'preact/hooks';
import { PathTable, Rounds, RoundsTable, Screws, ScrewsTable, TargetTable } from '../../drawing/index.ts';
import type { Sheet, SheetAsked, TriedTurn } from '../../model/index.ts';
import { Carriages } from './carriages.tsx';
import { useRoom } from './room.ts';
import { Trying } from './trying.tsx';

interface BelowProps {
  readonly sheet: Sheet;
  readonly asked: SheetAsked;
  ask(next: SheetAsked): void;
  onAddTried(): void;
}

/** Pixels of a mount's face, and of what is drawn over time or along the beam. */
const WIDEST = 300;

export function Below({ sheet, asked, ask, onAddTried }: BelowProps) {
  const { figure, screws, mounts, rounds, path, light, hasVisits, drift } = sheet;
  const width = Math.min(WIDEST, useRoom());
  const isLast = figure.round === figure.rounds;
  const turns = asked.station === undefined || asked.station === figure.station ? (asked.turns ?? []) : [];
  const here = { ...asked, station: figure.station, turns };
  return (
    <>
      {isLast && mounts.map((mount) => <Screws key={mount.part} figure={mount} width={width} />)}
      {isLast && screws.length > 0 && (
        <Trying
          screws={screws}
          turns={turns}
          onTry={(tried: readonly TriedTurn[]) => ask({ ...here, round: undefined, turns: tried })}
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
          open={asked.visits ?? false}
          onToggle={({ currentTarget: { open } }) => open !== (asked.visits ?? false) && ask({ ...here, visits: open })}
        >
          <summary>Visits, drift</summary>
          {drift && <Lines of={drift} />}
        </details>
      )}
      {path && <Carriages figure={path} width={width} onMove={(legs) => ask({ ...here, legs })} />}
      <Numbers sheet={sheet} />
    </>
  );
}

/** Made when they are looked at: there are more of them than of all the rest. */
function Numbers({ sheet: { figure, mounts, rounds, path } }: { readonly sheet: Sheet }) {
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
