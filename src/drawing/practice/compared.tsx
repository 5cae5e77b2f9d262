/** On a tape whose mark is logged: E expected (dashed ring), the reading (square, letter of its place), + where it came. */
import type { BurnFigure } from '../../model/index.ts';
import { px } from '../number.ts';
import { MARGIN, type BurnScale } from './scale.ts';

/** Pixels. */
const SIGN = 9;
/** Signs nearer than this to the true place, or to one another, are moved aside with a leader. */
const NEAR = 20;
const ASIDE = 26;

export function Compared({ figure: { compared }, scale }: { readonly figure: BurnFigure; readonly scale: BurnScale }) {
  if (!compared) return null;
  const { expected, read, came, letter } = compared;
  const middle = scale.at(came);
  return (
    <g>
      {expected && <Sign letter="E" is="expected" at={scale.at(expected)} away={middle} way={1} />}
      <Sign letter={letter} is="read" at={scale.at(read)} away={middle} way={-1} />
      <path
        d={`M${px(middle.x - SIGN)} ${px(middle.y)}h${2 * SIGN}M${px(middle.x)} ${px(middle.y - SIGN)}v${2 * SIGN}`}
        style={{ stroke: '#ffffff', fill: 'none' }}
        stroke-width="3.5"
      />
      <path
        d={`M${px(middle.x - SIGN)} ${px(middle.y)}h${2 * SIGN}M${px(middle.x)} ${px(middle.y - SIGN)}v${2 * SIGN}`}
        style={{ stroke: '#1b1b1b', fill: 'none' }}
        stroke-width="1.5"
      />
    </g>
  );
}

interface SignProps {
  readonly letter: string;
  readonly is: 'expected' | 'read';
  readonly at: { readonly x: number; readonly y: number };
  readonly away: { readonly x: number; readonly y: number };
  /** To which side it is moved if it is too near. */
  readonly way: 1 | -1;
}

function Sign({ letter, is, at, away, way }: SignProps) {
  const isNear = Math.abs(at.x - away.x) < NEAR && Math.abs(at.y - away.y) < NEAR;
  const x = isNear ? at.x + way * ASIDE : at.x;
  const y = isNear ? Math.max(MARGIN.top + SIGN + 2, at.y + ASIDE) : at.y;
  return (
    <g>
      {isNear && (
        <>
          <path d={`M${px(x)} ${px(y)}L${px(at.x)} ${px(at.y)}`} style={{ stroke: '#1b1b1b' }} stroke-width="1.25" />
          <circle cx={px(at.x)} cy={px(at.y)} r={2.4} style={{ fill: '#ffffff', stroke: '#1b1b1b' }} />
        </>
      )}
      {is === 'expected' ? (
        <circle
          cx={px(x)}
          cy={px(y)}
          r={SIGN}
          style={{ fill: '#f7f0d2', stroke: '#1b1b1b' }}
          stroke-width="1.5"
          stroke-dasharray="3 2"
        />
      ) : (
        <rect
          x={px(x - SIGN)}
          y={px(y - SIGN)}
          width={2 * SIGN}
          height={2 * SIGN}
          style={{ fill: '#E69F00', stroke: '#1b1b1b' }}
        />
      )}
      <text class="letter" x={px(x)} y={px(y + 4)} text-anchor="middle" style={{ fill: '#1b1b1b' }}>
        {letter}
      </text>
    </g>
  );
}
