/** An open diamond is as found, a full disc as left, one inside the other both. */
import { px } from '../number.ts';

interface SignProps {
  /** Pixels. */
  readonly x: number;
  readonly y: number;
}

export function AsFound({ x, y }: SignProps) {
  return (
    <path
      class="ink"
      d={`M${px(x)} ${px(y - 5)}l5 5l-5 5l-5 -5z`}
      style={{ fill: 'var(--ground)' }}
      stroke-width="1.5"
    />
  );
}

export function AsLeft({ x, y }: SignProps) {
  return <circle cx={px(x)} cy={px(y)} r="4" style={{ fill: 'var(--ink)' }} />;
}

export function Both({ x, y }: SignProps) {
  return (
    <g>
      <path
        class="ink"
        d={`M${px(x)} ${px(y - 6)}l6 6l-6 6l-6 -6z`}
        style={{ fill: 'var(--ground)' }}
        stroke-width="1.5"
      />
      <circle cx={px(x)} cy={px(y)} r="2.6" style={{ fill: 'var(--ink)' }} />
    </g>
  );
}
