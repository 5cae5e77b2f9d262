/** A dial like a clock face: the turn is an arc from the top, clockwise = in, unless the thread is left-handed. */
import { sense, turnsInWords, type DrawnScrew, type ScrewsFigure } from '../../model/index.ts';
import { px } from '../number.ts';

interface DialProps {
  readonly screw: DrawnScrew;
  readonly hand: ScrewsFigure['hand'];
  /** Pixels. */
  readonly x: number;
  readonly y: number;
  readonly radius?: number;
}

/** Pixels of a dial on a plate. */
export const DIAL = 21;

export function Dial({ screw, hand, x, y, radius = DIAL }: DialProps) {
  const { name, turns, place } = screw;
  return (
    <g transform={`translate(${px(x)} ${px(y)})`}>
      <Face turns={turns} hand={hand} radius={radius} letter={name} isMeasured={place !== undefined} />
      {turns !== 0 && (
        <text class="name" y={px(radius + 14)} text-anchor="middle">{`${sense(turns)} ${turnsInWords(turns)}`}</text>
      )}
    </g>
  );
}

interface FaceProps {
  readonly turns: number;
  readonly hand: ScrewsFigure['hand'];
  readonly radius: number;
  readonly letter: string;
  /** Dashed if nobody measured its place. */
  readonly isMeasured: boolean;
}

/** Around the origin. */
export function Face({ turns, hand, radius, letter, isMeasured }: FaceProps) {
  const ticks = Array.from({ length: 8 }, (_, k) => (k * Math.PI) / 4)
    .map((angle, k) => {
      const [sin, cos] = [Math.sin(angle), Math.cos(angle)];
      const inner = radius - (k % 2 === 0 ? 5 : 3);
      return `M${px(sin * inner)} ${px(-cos * inner)}L${px(sin * radius)} ${px(-cos * radius)}`;
    })
    .join('');
  return (
    <g>
      <circle
        class="ink"
        r={px(radius)}
        style={{ fill: 'var(--paper)' }}
        stroke-width="1.25"
        stroke-dasharray={isMeasured ? undefined : '3 3'}
      />
      <path class="ink" d={ticks} stroke-width="0.75" />
      {turns !== 0 && <Sweep turns={turns} hand={hand} radius={radius * 0.76} />}
      <text class="name" y="4" text-anchor="middle">
        {letter}
      </text>
    </g>
  );
}

/** Pixels of the arrow head along the arc, and across. */
const HEAD = { along: 10, across: 10 };
/** An arc that is hardly longer than its head is all head. */
const SHORTEST = 0.05;

/** The angle of the arrow's tip from the top, clockwise, rad: the turn itself, at most a full one. */
function tipAngle(turns: number, hand: ScrewsFigure['hand']): number {
  const clockwise = hand === 'right' ? turns : -turns;
  return 2 * Math.PI * Math.max(-1, Math.min(1, clockwise));
}

/** The tip of the arrow is at the angle, its head behind it along the arc. More than one turn is a full ring. */
function Sweep({
  turns,
  hand,
  radius,
}: {
  readonly turns: number;
  readonly hand: ScrewsFigure['hand'];
  readonly radius: number;
}) {
  const angle = tipAngle(turns, hand);
  const way = Math.sign(angle);
  const head = Math.min(HEAD.along / radius, Math.abs(angle)) * way;
  const at = (of: number, r: number) =>
    [Math.round(Math.sin(of) * r * 100) / 100, Math.round(-Math.cos(of) * r * 100) / 100] as const;
  const begin = angle - head;
  const isLarge = Math.abs(begin) > Math.PI ? 1 : 0;
  const arc = `M0 ${-radius}A${radius} ${radius} 0 ${isLarge} ${way > 0 ? 1 : 0} ${at(begin, radius).join(' ')}`;
  const [tip, outer, inner] = [
    at(angle, radius),
    at(begin, radius + HEAD.across / 2),
    at(begin, radius - HEAD.across / 2),
  ];
  const colour = `var(--${turns > 0 ? 'in' : 'out'})`;
  return (
    <g>
      {Math.abs(begin) > SHORTEST && (
        <path class="sweep" d={arc} style={{ stroke: colour, fill: 'none' }} stroke-width="3.5" />
      )}
      <path class="tip" d={`M${tip.join(' ')}L${outer.join(' ')}L${inner.join(' ')}z`} style={{ fill: colour }} />
    </g>
  );
}
