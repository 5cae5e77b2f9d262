/** The beam from the tube to the last station: each station is its own tape in small, and selects what is shown. */
import { useEffect, useRef } from 'preact/hooks';
import { lineColour, VERDICT_SIGNS } from '../../drawing/index.ts';
import type { PanelStation } from '../../model/index.ts';

interface StationsProps {
  readonly stations: readonly PanelStation[];
  readonly shown: string;
  onChoose(station: string): void;
}

export function Stations({ stations, shown, onChoose }: StationsProps) {
  const chosen = useRef<HTMLLabelElement>(null);
  // Only sideways: the page itself must not move.
  useEffect(() => {
    const [column, list] = [chosen.current, chosen.current?.parentElement];
    if (column && list)
      list.scrollLeft = Math.max(0, column.offsetLeft + column.offsetWidth / 2 - list.clientWidth / 2);
  }, [shown]);
  const last = stations.findLastIndex(({ marks }) => marks.some(({ isStale }) => !isStale));
  const blocked = stations.findIndex(({ state }) => state === 'blocked');
  const seen = blocked < 0 ? last : Math.min(last, blocked);
  return (
    <div class="path" role="radiogroup" aria-label="Station">
      <span class="tube" aria-hidden="true">
        <svg viewBox="0 0 32 12" width="32" height="12" aria-hidden="true">
          <rect x="1" y="1" width="30" height="10" rx="2" class="ink" stroke-width="1.5" />
        </svg>
        <span class="word">tube</span>
      </span>
      {stations.map((station, k) => (
        <label
          key={station.name}
          class={station.name === shown ? 'station chosen' : 'station'}
          {...(station.name === shown && { ref: chosen })}
        >
          <input
            type="radio"
            name="station"
            checked={station.name === shown}
            aria-label={`${station.name}: ${station.words}${station.act ? `, ${station.act}` : ''}`}
            onChange={() => onChoose(station.name)}
          />
          <span class="act" aria-hidden="true">
            {station.act ? `${station.act} ▾` : ''}
          </span>
          <i class={k <= seen ? 'beam seen' : 'beam'} />
          {k < stations.length - 1 && <i class={k < seen ? 'beam after seen' : 'beam after'} />}
          <Small station={station} />
          <span class="name" aria-hidden="true">
            {station.name}
          </span>
          <span class={`word v-${VERDICT_SIGNS[station.state].colour}`} aria-hidden="true">
            {station.words}
          </span>
        </label>
      ))}
    </div>
  );
}

/** Pixels: of the tape, and of the limit on it. */
const TAPE = 19;
const LIMIT = 11;
/** Marks farther out stand here, in limits. */
const FARTHEST = 1.6;

function Small({ station: { state, marks } }: { readonly station: PanelStation }) {
  const { colour } = VERDICT_SIGNS[state];
  const dashes = state === 'unread' ? '1.6 2.6' : state === 'unexplained' ? '4 3' : undefined;
  return (
    <svg class="figure" viewBox="-20 -20 40 40" width="40" height="40" aria-hidden="true">
      <circle r={TAPE} style={{ fill: 'var(--ground)', stroke: 'var(--rule)' }} stroke-width="0.75" />
      <circle
        r={LIMIT}
        style={{ fill: 'var(--allowed)', stroke: `var(--${colour})` }}
        stroke-width="2.25"
        stroke-dasharray={dashes}
      />
      {marks.map(({ place, right, up, isStale }, k) => {
        const shrink = Math.min(1, FARTHEST / Math.hypot(right, up));
        const colour = lineColour(place);
        return (
          <circle
            key={k}
            cx={right * shrink * LIMIT}
            cy={-up * shrink * LIMIT}
            r="2.2"
            style={isStale ? { fill: 'var(--allowed)', stroke: colour } : { fill: colour, stroke: 'var(--ground)' }}
            stroke-width={isStale ? 1.2 : 0.6}
          />
        );
      })}
      {state === 'blocked' && <rect x="-7" y="-2" width="14" height="4" style={{ fill: 'var(--stop)' }} />}
    </svg>
  );
}
