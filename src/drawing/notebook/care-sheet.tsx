/** Below care: one line with the last visits to the part as dots, and a tick for the next due date. */
import type { CareView } from '../../model/index.ts';

/** Pixels: from one visit to the next, and the middle of the line. */
const STEP = 30;
const MIDDLE = 8;
const DOT = 4;

export function CareSheet({ view: { effect, visits, due } }: { readonly view: CareView }) {
  return (
    <p class="sheet figure care">
      <span>{effect}</span>
      <Visits visits={visits} isDue={due !== undefined} />
      <span class="muted">
        {visits.map(({ found, date }, k) => (
          <span key={k} title={date}>
            {k > 0 && ', '}
            {k === visits.length - 1 ? <b>{found}</b> : found}
          </span>
        ))}
        {due !== undefined && ` · ${due}`}
      </span>
    </p>
  );
}

function Visits({ visits, isDue }: { readonly visits: CareView['visits']; readonly isDue: boolean }) {
  const ends = visits.length - 1 + (isDue ? 1 : 0);
  const width = ends * STEP + 2 * MIDDLE;
  const at = (k: number) => MIDDLE + k * STEP;
  return (
    <svg class="figure" width={width} height={2 * MIDDLE} viewBox={`0 0 ${width} ${2 * MIDDLE}`} aria-hidden="true">
      <path class="line" d={`M${at(0)} ${MIDDLE}H${at(ends)}`} />
      {isDue && <path class="ink" d={`M${at(ends)} ${MIDDLE - 4}v8`} />}
      {visits.map(({ isClean }, k) => (
        <circle
          key={k}
          class="ink"
          cx={at(k)}
          cy={MIDDLE}
          r={DOT}
          style={{ fill: isClean ? 'var(--paper)' : 'var(--ink)' }}
          stroke-width="1.5"
        />
      ))}
    </svg>
  );
}
