/** The predicted next mark in words, in the viewer's and the machine's directions. */
import {
  isVertical,
  lengthsIn,
  opposite,
  type Direction,
  type Ellipse,
  type Expected,
  type StationReport,
} from '../model/index.ts';
import { discProbability } from '../statistics/index.ts';
import { markInWords, sideInWords } from './mark-words.ts';
import { placeInWords } from './words.ts';

/** `M2, gantry far: 0.3 right (machine left) 1.2 up, ± 0.6 mm (95 %)`. */
export function expectedInWords(expected: Expected, station: StationReport): string {
  const place = placeInWords(station.carriages, expected.at, expected.with);
  return `${station.name}${place === '' ? '' : `, ${place}`}: ${markOnTape(expected, station)}`;
}

/** Replaces a prediction where the effect of a screw is not known. */
export function trialInWords({ part, screw }: { readonly part: string; readonly screw: string }): string {
  return `the effect of ${screw} of ${part} is not known yet: these marks show it`;
}

/** The same in the columns of a table, in ASCII. */
export interface ExpectedColumns {
  /** `0.0 right`, `1.2 up`: one for each axis; or one for both: `anywhere on the tape`. */
  readonly mark: readonly string[];
  /** `+- 1.0 mm`: the radius within which 95 % of such marks are. */
  readonly radius?: string;
}

/** The columns of a predicted mark: the viewer's words, on vertical legs the machine's. */
export function expectedInColumns(expected: Expected, station: StationReport): ExpectedColumns {
  const { right, up, ellipse } = expected;
  if (!isPredicted(expected, station)) return { mark: [markOnTape(expected, station)] };
  const { frame } = station;
  const { mark, read } = lengthsIn(frame.units);
  const upright = isVertical(frame.runs);
  const across = right < 0 ? 'left' : 'right';
  const along = up < 0 ? 'down' : 'up';
  const machine = (amount: number, positive: Direction) => (amount < 0 ? opposite(positive) : positive);
  return {
    mark: [
      `${mark(Math.abs(right))} ${upright ? machine(right, frame.right) : across}`,
      `${mark(Math.abs(up))} ${upright ? machine(up, frame.up) : along}`,
    ],
    radius: `+- ${read(ellipse.major)}`,
  };
}

/** An ellipse as wide as the aperture predicts no place on the tape. */
function isPredicted({ ellipse }: Expected, { aperture }: StationReport): boolean {
  return ellipse.major < aperture / 2;
}

/** A mark that cannot be predicted may miss the tape as well. */
function markOnTape(expected: Expected, station: StationReport): string {
  const { right, up, u, ellipse } = expected;
  const { frame, aperture } = station;
  if (isPredicted(expected, station)) return `${markInWords(right, up, frame)}, ${widthInWords(ellipse, frame)} (95 %)`;
  const lands = discProbability([right, up], [u.right ** 2, u.r * u.right * u.up, u.up ** 2], aperture / 2);
  return `anywhere on the tape${lands < 0.5 ? ', or past it' : ''}`;
}

/** The minimum elongation, as a ratio and in mm, for which the direction is given. */
const ELONGATED = { ratio: 2, least: 0.5 } as const;

function widthInWords({ major, minor, angle }: Ellipse, frame: StationReport['frame']): string {
  const { read } = lengthsIn(frame.units);
  if (major < ELONGATED.ratio * minor || major - minor < ELONGATED.least) return `± ${read(major)}`;
  return `± ${read(minor)}, ± ${read(major)} ${lineInWords(angle, frame)}`;
}

/** The direction of a line to an eighth of a turn; a line has no sense. */
function lineInWords(angle: number, { runs, right }: StationReport['frame']): string {
  const upright = runs === 'up' || runs === 'down';
  const eighth = Math.round(angle / (Math.PI / 4));
  if (eighth === 0) return upright ? 'left and right' : 'sideways';
  if (Math.abs(eighth) === 2) return upright ? 'front and rear' : 'up and down';
  return `along ${upright ? 'rear' : 'up'} ${sideInWords(eighth > 0 ? 'right' : 'left', eighth > 0 ? right : opposite(right), upright)}`;
}
