/** The beam path in words. */
import { lengthsIn, type PathClearance, type PathFigure, type PathPart, type Units } from '../../model/index.ts';
import { pointInWords } from '../target/words.ts';

/** The least clearance along a travel, mm; undefined if the beam does not arrive everywhere. */
export function leastClearance({ points }: PathClearance, of: 'now' | 'then'): number | undefined {
  const values = points.map((point) => point[of]);
  return values.includes(undefined) ? undefined : Math.min(...(values as readonly number[]));
}

/** `3.2 mm`, `cut off by 1.0 mm` */
export function clearanceInWords(least: number | undefined, units: Units): string {
  const { read } = lengthsIn(units);
  if (least === undefined) return 'no beam here';
  return least < 0 ? `cut off by ${read(-least)}` : read(least);
}

export function beamInWords(part: PathPart, of: 'mark' | 'then'): string {
  const point = part[of];
  if (!point) return 'no beam here';
  const tenths = { right: Math.round(point.right * 10) / 10, up: Math.round(point.up * 10) / 10 };
  return pointInWords(tenths, part);
}

/** The two edges between which a clearance is measured. */
export function clearanceOfWhat({ isWidthKnown }: Pick<PathFigure, 'isWidthKnown'>): string {
  return isWidthKnown ? 'beam edge to aperture edge' : 'beam centre to aperture edge';
}

/** One paragraph. */
export function pathInWords(figure: PathFigure): string {
  const { machine, place, parts, isMoved, units } = figure;
  const partTexts = parts.map((part) =>
    [
      `${part.name}${part.isMeasured ? '' : ' (not measured)'}: beam ${beamInWords(part, 'mark')}`,
      isMoved ? `after the advised step ${beamInWords(part, 'then')}` : '',
      `least clearance ${clearanceInWords(leastClearance(part.clearance, 'now'), units)}${isMoved ? `, then ${clearanceInWords(leastClearance(part.clearance, 'then'), units)}` : ''}`,
    ]
      .filter(Boolean)
      .join('; '),
  );
  return `Beam path of ${machine}${place === '' ? '' : `, ${place}`}. Clearance is ${clearanceOfWhat(figure)}, where it is least along the travel. ${partTexts.join('. ')}.`;
}
