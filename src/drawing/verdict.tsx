/** The signs of a verdict: the limit is a ring, the mark a dot. They differ in shape, so that no colour is needed. */
import type { ShownState } from '../model/index.ts';

interface Drawn {
  /** Lines of the ring, and areas of the dot, in a square of 16. */
  readonly ring?: string;
  readonly dot?: string;
  readonly dashes?: string;
  /** The part of the ring that is not shot. */
  readonly dotted?: string;
  readonly colour: 'within' | 'border' | 'outside' | 'stop' | 'pale';
}

function ring(x: number, y: number, r: number): string {
  return `M${x - r} ${y}a${r} ${r} 0 1 1 ${2 * r} 0a${r} ${r} 0 1 1 ${-2 * r} 0z`;
}

const MIDDLE = ring(8, 8, 6.2);
const CORNER = ring(6.6, 9.4, 4.8);
const DOT = ring(8, 8, 2.3);
const BEYOND = ring(13.2, 3.2, 2.2);

/** By state. */
export const VERDICT_SIGNS: Readonly<Record<ShownState, Drawn>> = {
  within: { ring: MIDDLE, dot: DOT, colour: 'within' },
  // Open where the dot lies on it.
  borderline: { ring: 'M8.2 3.8A5.6 5.6 0 1 0 12.2 7.8', dot: ring(11.6, 4.4, 2.4), colour: 'border' },
  outside: { ring: CORNER, dot: BEYOND, colour: 'outside' },
  unread: { ring: MIDDLE, dashes: '1.3 2.6', colour: 'pale' },
  incomplete: {
    ring: 'M8 1.8a6.2 6.2 0 0 1 0 12.4',
    dotted: 'M8 14.2a6.2 6.2 0 0 1 0 -12.4',
    dot: DOT,
    colour: 'pale',
  },
  stale: { ring: `${MIDDLE}${ring(8, 8, 2.2)}`, colour: 'pale' },
  unlimited: { dot: DOT, colour: 'pale' },
  unexplained: { ring: CORNER, dot: BEYOND, dashes: '2.6 2.2', colour: 'border' },
  blocked: { ring: MIDDLE, dot: 'M4.6 6.8h6.8v2.4h-6.8z', colour: 'stop' },
};

/** Around the upper left corner of a square of 16, in the figure's colours. */
export function VerdictIn({ state, animate = false }: { readonly state: ShownState; readonly animate?: boolean }) {
  const { ring: line, dot, dashes, dotted, colour } = VERDICT_SIGNS[state];
  return (
    <g style={{ '--v': `var(--${colour})` }}>
      {line && (
        <path
          class={animate ? 'closing' : undefined}
          pathLength={animate ? 100 : undefined}
          d={line}
          style={{ fill: 'none', stroke: 'var(--v)' }}
          stroke-width="1.5"
          stroke-dasharray={dashes}
        />
      )}
      {dotted && (
        <path d={dotted} style={{ fill: 'none', stroke: 'var(--v)' }} stroke-width="1.5" stroke-dasharray="1.3 2.6" />
      )}
      {dot && <path d={dot} style={{ fill: 'var(--v)' }} />}
    </g>
  );
}
