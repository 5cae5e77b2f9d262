/** A target in words, for screen readers. */
import {
  isVertical,
  lengthsIn,
  waysOf,
  type TargetExpected,
  type TargetFigure,
  type TargetHalf,
  type TargetMark,
} from '../../model/index.ts';
import { sidesOf } from '../sides.ts';

/** `1.5 right (machine left), 2 up mm` */
export function pointInWords(
  { right, up }: { readonly right: number; readonly up: number },
  { frame }: Pick<TargetFigure, 'frame'>,
): string {
  const sides = sidesOf(frame, false);
  const across = part(right, right < 0 ? sides.left : sides.right, frame);
  const upward = part(up, up < 0 ? sides.bottom : sides.top, frame);
  return across === '' && upward === ''
    ? 'centred'
    : `${[across, upward].filter(Boolean).join(', ')}${lengthsIn(frame.units).marks}`;
}

function part(
  value: number,
  { viewer, machine }: { readonly viewer: string; readonly machine: string },
  { runs, units }: TargetFigure['frame'],
): string {
  const { drawn } = lengthsIn(units);
  const amount = drawn(Math.abs(value));
  if (amount === drawn(0)) return '';
  if (isVertical(runs)) return `${amount} ${machine}`;
  return `${amount} ${viewer}${viewer === machine ? '' : ` (machine ${machine})`}`;
}

function placeName({ places }: Pick<TargetFigure, 'places'>, place: number): string {
  return places[place]?.full || 'tape';
}

export function markInFull(mark: TargetMark, figure: TargetFigure): string {
  const age = mark.age === 'fresh' ? '' : mark.age === 'stale' ? ', stale' : `, round ${mark.round}`;
  return `${placeName(figure, mark.place)}: ${pointInWords(mark, figure)}${age}`;
}

/** `gantry near: 1.5 right (machine left) mm, up or down not read` */
export function halfInFull(half: TargetHalf, figure: TargetFigure): string {
  return `${placeName(figure, half.place)}: ${halfInWords(half, figure)}${half.age === 'stale' ? ', stale' : ''}`;
}

export function halfInWords({ read, value }: TargetHalf, { frame }: Pick<TargetFigure, 'frame'>): string {
  const sides = sidesOf(frame, false);
  const amount =
    read === 'right'
      ? part(value, value < 0 ? sides.left : sides.right, frame)
      : part(value, value < 0 ? sides.bottom : sides.top, frame);
  return `${amount === '' ? 'centred' : `${amount}${lengthsIn(frame.units).marks}`}, ${waysOf(read === 'right' ? 'up' : 'right', frame.runs)} not read`;
}

function expectedInFull(expected: TargetExpected, figure: TargetFigure): string {
  return `${placeName(figure, expected.place)}: next mark ${pointInWords(expected, figure)}, 95 % within ${axesInWords(expected, figure)}${lengthsIn(figure.frame.units).marks}`;
}

/** `5 by 0.6`, `3/16 in by 1/32 in` */
export function axesInWords(
  { ellipse: { major, minor } }: TargetExpected,
  { frame }: Pick<TargetFigure, 'frame'>,
): string {
  const { drawn } = lengthsIn(frame.units);
  return `${drawn(major)} by ${drawn(minor)}`;
}

/** What a mark at this point would be logged as: `2.5 right 3.0 down`, and the machine's word for what is right. */
export function cursorInWords(
  { right, up }: { readonly right: number; readonly up: number },
  { frame }: Pick<TargetFigure, 'frame'>,
  isFine: boolean,
): readonly [reading: string, machine: string] {
  const { mark, drawn } = lengthsIn(frame.units);
  const amount = isFine ? drawn : mark;
  const sides = sidesOf(frame, false);
  const ends = [right < 0 ? sides.left : sides.right, up < 0 ? sides.bottom : sides.top] as const;
  if (right === 0 && up === 0) return ['centre', ''];
  const isMachine = isVertical(frame.runs);
  const word = ({ viewer, machine }: (typeof ends)[number]) => (isMachine ? machine : viewer);
  const other = ends.filter(({ viewer, machine }) => !isMachine && viewer !== machine);
  return [
    `${amount(Math.abs(right))} ${word(ends[0])} ${amount(Math.abs(up))} ${word(ends[1])}`,
    other.length > 0 ? `machine ${other.map(({ machine }) => machine).join(', ')}` : '',
  ];
}

/** One paragraph. */
export function targetInWords(figure: TargetFigure): string {
  const { given, short } = lengthsIn(figure.frame.units);
  const { station, words, aperture, limit, beam, marks, halves, missed, expected, round, rounds } = figure;
  const now = [
    ...marks.filter(({ age }) => age !== 'earlier').map((mark) => markInFull(mark, figure)),
    ...halves.map((half) => halfInFull(half, figure)),
  ];
  return [
    `Tape on ${station}: ${words}.`,
    `The aperture is ${given(aperture)} wide${limit === undefined ? '' : `; marks are allowed ${given(limit)} from its centre`}.`,
    rounds > 1 ? `Round ${round} of ${rounds}.` : '',
    now.length === 0 ? 'No marks.' : `${now.join('; ')}.`,
    beam === undefined ? '' : `At the maximum distance from the centre, the beam is ${short(beam)} wide.`,
    ...missed.map(({ place }) => `${placeName(figure, place)}: no mark, the beam missed the tape.`),
    ...expected.map((one) => `${expectedInFull(one, figure)}.`),
  ]
    .filter(Boolean)
    .join(' ');
}
