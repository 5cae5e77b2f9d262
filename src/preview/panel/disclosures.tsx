/** What is opened on request: the beam path, the rounds, the visits, and all of it in numbers. */
import { PathTable, Rounds, RoundsTable, ScrewsTable, TargetTable } from '../../drawing/index.ts';
import type { PanelOptions, PanelView } from '../../model/index.ts';
import { Carriages } from './carriages.tsx';

export type Disclosure = 'path' | 'rounds' | 'visits' | 'numbers';

const NAMES: Readonly<Record<Disclosure, string>> = {
  path: 'Beam path and clearance',
  rounds: 'Round after round',
  visits: 'Visits, drift',
  numbers: 'In numbers',
};

interface DisclosuresProps {
  readonly view: PanelView;
  readonly open: readonly Disclosure[];
  onToggle(which: Disclosure): void;
}

/** The buttons that open and close them. */
export function DisclosureButtons({ view, open, onToggle }: DisclosuresProps) {
  return (
    <div class="disclosures">
      {(Object.keys(NAMES) as Disclosure[])
        .filter((which) => isThere(which, view))
        .map((which) => (
          <button
            type="button"
            key={which}
            aria-expanded={open.includes(which)}
            aria-controls={`about-${which}`}
            onClick={() => onToggle(which)}
          >
            {`${open.includes(which) ? '▾' : '▸'} ${NAMES[which]}`}
          </button>
        ))}
    </div>
  );
}

function isThere(which: Disclosure, { path, rounds, hasVisits }: PanelView): boolean {
  if (which === 'path') return path !== undefined;
  if (which === 'rounds') return rounds !== undefined;
  return which === 'numbers' || hasVisits;
}

interface OpenProps extends DisclosuresProps {
  /** Pixels of a figure. */
  readonly width: number;
  onMove(legs: NonNullable<PanelOptions['legs']>): void;
}

export function Opened({ view, open, width, onMove }: OpenProps) {
  const shown = open.filter((which) => isThere(which, view));
  return (
    <>
      {shown.map((which) => (
        <section key={which} id={`about-${which}`} class="opened" aria-label={NAMES[which]}>
          <h2>{NAMES[which]}</h2>
          <Content which={which} view={view} width={width} onMove={onMove} />
        </section>
      ))}
    </>
  );
}

function Content({
  which,
  view,
  width,
  onMove,
}: Pick<OpenProps, 'view' | 'width' | 'onMove'> & { readonly which: Disclosure }) {
  const { path, rounds, light, drift } = view;
  switch (which) {
    case 'path':
      return (
        <>
          {path && <Carriages figure={path} width={width} onMove={onMove} />}
          <Lines of={light} />
        </>
      );
    case 'rounds':
      return rounds ? <Rounds figure={rounds} width={width} /> : null;
    case 'visits':
      return <Lines of={drift ?? []} />;
    case 'numbers':
      return <Numbers view={view} />;
  }
}

function Numbers({ view: { figure, mounts, rounds, path } }: { readonly view: PanelView }) {
  return (
    // biome-ignore lint/a11y: a region that scrolls is reached by the keyboard
    <div class="scroll" tabIndex={0} role="region" aria-label="Numbers">
      <TargetTable figure={figure} />
      {mounts.map((mount) => (
        <ScrewsTable key={mount.part} figure={mount} />
      ))}
      {rounds && <RoundsTable figure={rounds} />}
      {path && <PathTable figure={path} />}
    </div>
  );
}

function Lines({ of }: { readonly of: readonly string[] }) {
  return of.length === 0 ? null : (
    <ul class="lines">
      {of.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  );
}
