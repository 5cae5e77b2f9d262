/** This visit: every limit as found and as left, on one axis in limits. */
import type { PanelChange } from '../../model/index.ts';

/** Limits; what is beyond stands at the end, as an arrow. */
const FARTHEST = 2.4;

export function Changes({ changes }: { readonly changes: readonly PanelChange[] }) {
  return (
    <div class="changes">
      <h2>
        This visit <span>· as found → as left</span>
      </h2>
      {changes.map((change) => (
        <Change key={change.name} {...change} />
      ))}
    </div>
  );
}

/** Pixels of the drawing. */
const WIDTH = 240;
const x = (limits: number) => 6 + (Math.min(FARTHEST, limits) / FARTHEST) * (WIDTH - 14);

function Change({ name, found, left, words }: PanelChange) {
  const isFar = found > FARTHEST;
  return (
    <div class="change">
      <span>{name}</span>
      <svg class="figure" viewBox={`0 0 ${WIDTH} 18`} width={WIDTH} height="18" aria-hidden="true">
        <rect x={x(0)} width={x(1) - x(0)} height="18" style={{ fill: 'var(--within)' }} fill-opacity="0.15" />
        <path class="ink" d={`M${x(1)} 0v18`} stroke-width="1.5" />
        <path class="ink" d={`M${x(left)} 9H${x(found)}`} stroke-width="1.2" stroke-dasharray="1.2 2.6" />
        {isFar ? (
          <path class="ink" d={`M${x(found) - 3} 5l6 4l-6 4`} stroke-width="1.4" />
        ) : (
          <circle class="ink" cx={x(found)} cy="9" r="3.5" style={{ fill: 'var(--paper)' }} stroke-width="1.4" />
        )}
        <circle cx={x(left)} cy="9" r="4" style={{ fill: 'var(--ink)' }} />
      </svg>
      <span class="numbers">
        {`${words.found} → `}
        <b>{words.left}</b>
        {` of ${words.limit}`}
      </span>
    </div>
  );
}
