/** Below or beside the tape: what the hands need for the step at hand. */
import { Plate } from '../../drawing/index.ts';
import type { PanelOptions, PanelView, TriedTurn } from '../../model/index.ts';
import { Changes } from './changes.tsx';
import { Checks } from './checks.tsx';
import { Choice } from './choice.tsx';
import { Keys } from './keys.tsx';
import { Turning } from './turning.tsx';

export interface BenchProps {
  readonly view: PanelView;
  readonly options: PanelOptions;
  /** The sentences for which the strip has no room. */
  readonly more: readonly string[];
  readonly ticked: readonly number[];
  readonly isReading: boolean;
  /** Pixels of a figure. */
  readonly width: number;
  /** The keys are shown until some marks were read with them. */
  readonly areKeysKnown: boolean;
  onTick(ticked: readonly number[]): void;
  onTry(turns: readonly TriedTurn[] | undefined): void;
  onLogTried(): void;
}

/** Pixels of a plate. */
const PLATE = 196;

export function Bench(props: BenchProps) {
  const { view, options, isReading } = props;
  const { now, mounts, figure, visit, verdict, screws } = view;
  const isLast = figure.round === figure.rounds;
  if (now.checks) return <Checks {...props} checks={now.checks} cautions={now.cautions} />;
  return (
    <section class="bench" aria-label="Bench">
      {verdict === 'within' && visit.length > 0 && <Changes changes={visit} />}
      {isReading && (
        <div class="beside">
          {mounts.slice(0, 1).map((mount) => (
            <Mount key={mount.part} figure={mount} />
          ))}
          {!props.areKeysKnown && <Keys view={view} />}
        </div>
      )}
      {now.ways && isLast && <Choice ways={now.ways} doubt={now.doubt} width={props.width} />}
      {!isReading && isLast && verdict === 'continue' && (
        <div class="beside">
          {mounts.map((mount) => (
            <Mount key={mount.part} figure={mount} />
          ))}
          {screws.length > 0 && <Turning view={view} options={options} onTry={props.onTry} onLog={props.onLogTried} />}
        </div>
      )}
      <InOrder now={now} more={props.more} />
    </section>
  );
}

function Mount({ figure }: { readonly figure: PanelView['mounts'][number] }) {
  return (
    <div class="mount">
      <h2>
        {figure.part} <span>{figure.heads === 'behind' ? 'from behind, facing the screws' : 'from the beam side'}</span>
      </h2>
      <Plate figure={figure} width={PLATE} />
    </div>
  );
}

/** Every step in full: the strip has room for the act alone. */
function InOrder({
  now: { steps, cautions },
  more,
}: {
  readonly now: PanelView['now'];
  readonly more: readonly string[];
}) {
  if (steps.length === 0 && more.length === 0) return null;
  return (
    <div class="order">
      {steps.length > 0 && <h2>What to do, in this order</h2>}
      <ol>
        {steps.map((say) => (
          <li key={say}>{say}</li>
        ))}
      </ol>
      {more.length > 0 && <p class="pale">{more.join(' ')}</p>}
      {cautions.length > 0 && <p class="pale">{cautions.join(' ')}</p>}
    </div>
  );
}
