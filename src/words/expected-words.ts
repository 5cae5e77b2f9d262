/** The predicted next mark in words, in the viewer's and the machine's directions. */
import { lengthsIn, opposite, type Ellipse, type Expected, type StationReport } from '../model/index.ts';
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

/** An ellipse as wide as the aperture predicts no place on the tape, and a mark may then miss the tape as well. */
function markOnTape({ right, up, u, ellipse }: Expected, { frame, aperture }: StationReport): string {
  if (ellipse.major < aperture / 2) return `${markInWords(right, up, frame)}, ${widthInWords(ellipse, frame)} (95 %)`;
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
