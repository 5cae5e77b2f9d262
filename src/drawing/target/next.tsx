/** A predicted mark: its 95 % ellipse, and a cross at the most likely place. */
import type { TargetExpected } from '../../model/index.ts';
import { px } from '../number.ts';
import { lineColour } from '../sign.tsx';
import type { TapeScale } from './scale.ts';

interface NextProps {
  readonly expected: TargetExpected;
  readonly scale: TapeScale;
  readonly behind: boolean;
}

/** The field clips what is outside. */
export function Next({ expected: { place, right, up, ellipse }, scale, behind }: NextProps) {
  const { x, y } = scale.beyond({ right, up });
  const turned = ((behind ? ellipse.angle : -ellipse.angle) * 180) / Math.PI;
  return (
    <g style={{ stroke: lineColour(place), fill: lineColour(place) }} stroke-width="1.5">
      <ellipse
        rx={px(ellipse.major * scale.per)}
        ry={px(ellipse.minor * scale.per)}
        transform={`translate(${px(x)} ${px(y)}) rotate(${px(turned)})`}
        stroke-dasharray="5 3.5"
        fill-opacity="0.07"
      />
      <path d={`M${px(x - 3.5)} ${px(y - 3.5)}l7 7m0 -7l-7 7`} fill="none" />
    </g>
  );
}
