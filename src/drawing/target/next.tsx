/** A predicted mark: its 95 % ellipse, and a cross at the most likely place. */
import type { TargetExpected } from '../../model/index.ts';
import { px } from '../number.ts';
import { lineThrough } from '../outline.ts';
import { colourOf } from '../sign.tsx';
import type { OnTape, TapeScale } from './scale.ts';

interface NextProps {
  readonly expected: TargetExpected;
  readonly scale: TapeScale;
  readonly behind: boolean;
}

export function Next(props: NextProps) {
  const {
    expected: { place, right, up, ellipse },
    scale,
  } = props;
  const { x, y } = scale.at({ right, up });
  const isOnTape = Math.hypot(right, up) + ellipse.major <= scale.reach;
  return (
    <g style={{ stroke: colourOf(place) }} fill="none" stroke-width="1.5">
      {isOnTape ? <FullEllipse {...props} /> : <VisiblePart {...props} />}
      <path d={`M${px(x - 4)} ${px(y - 4)}l8 8m0 -8l-8 8`} />
    </g>
  );
}

const DASHES = '4 2';

function FullEllipse({ expected: { ellipse, ...centre }, scale, behind }: NextProps) {
  const { x, y } = scale.at(centre);
  const turned = ((behind ? ellipse.angle : -ellipse.angle) * 180) / Math.PI;
  return (
    <ellipse
      rx={px(ellipse.major * scale.per)}
      ry={px(ellipse.minor * scale.per)}
      transform={`translate(${px(x)} ${px(y)}) rotate(${px(turned)})`}
      stroke-dasharray={DASHES}
    />
  );
}

const POINTS = 180;

/** The part of the ellipse on the drawn tape; the rest would cover what is around it. */
function VisiblePart({
  expected: {
    ellipse: { major, minor, angle },
    right,
    up,
  },
  scale,
}: NextProps) {
  const points = Array.from({ length: POINTS + 1 }, (_, k): OnTape => {
    const [along, across] = [
      major * Math.cos((2 * Math.PI * k) / POINTS),
      minor * Math.sin((2 * Math.PI * k) / POINTS),
    ];
    return {
      right: right + along * Math.cos(angle) - across * Math.sin(angle),
      up: up + along * Math.sin(angle) + across * Math.cos(angle),
    };
  });
  const shown = points.map((at) => (Math.hypot(at.right, at.up) <= scale.reach ? scale.at(at) : undefined));
  return <path d={lineThrough(shown)} stroke-dasharray={DASHES} />;
}
