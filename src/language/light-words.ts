/** What the beam does on its way, in words: the same on paper and in a hover. mm, mrad. */
import { markInWords, placeInWords } from '../alignment/index.ts';
import type { Eyewear, Focus, Light, LightAtStation, LightBeam, LightCorner, StationReport } from '../model/index.ts';

export function beamInWords({ waist, at, divergence, M2, assumed }: LightBeam): string {
  const place = assumed ? 'taken to be at the tube’s exit' : `${Math.round(-at)} mm inside the tube`;
  return `Waist ${waist.toFixed(1)} mm, ${place}; full divergence ${(divergence * 1000).toFixed(1)} mrad; M2 ${M2.toFixed(2)}.`;
}

/** At one station, a line for each place where it differs. */
export function widthsInWords({ corners }: Light, { name, carriages }: StationReport): string[] {
  const lines = corners.flatMap((corner) => corner.stations.filter((one) => one.name === name).map((one) => `${labelled(cornerInWords(carriages, corner))}${widthInWords(one)}`));
  return [...new Set(lines)];
}

/** `6.2 mm wide; 0.3 % ± 0.1 % lost, 2.1 mm off the middle`. */
function widthInWords({ diameter, u, offset, lost, lostU, lostOnFace }: LightAtStation): string {
  const wide = `${diameter.toFixed(1)}${u >= 0.05 ? ` ± ${u.toFixed(1)}` : ''} mm wide`;
  const where = offset === undefined ? 'if it is centred (no mark holds here)' : `${offset.toFixed(1)} mm off the middle`;
  const face = lostOnFace === undefined || lostOnFace < LITTLE ? '' : `; ${shareInWords(lostOnFace)} if the aperture is the mirror’s own face`;
  return `${wide}; ${shareInWords(lost, lostU)} lost, ${where}${face}`;
}

/** Of everything that all the apertures take, a line for each corner. */
export function lossesInWords({ corners }: Light, carriages: StationReport['carriages']): string[] {
  return corners.map((corner) => `${labelled(cornerInWords(carriages, corner))}${shareInWords(corner.lost)}`);
}

export function focusInWords({ diameter, spot, depth, aberration, lean, shift }: Focus, { frame }: StationReport): string[] {
  const span = (least: number, most: number, digits: number) => (least.toFixed(digits) === most.toFixed(digits) ? least.toFixed(digits) : `${least.toFixed(digits)} to ${most.toFixed(digits)}`);
  const wrong = aberration && (aberration.right === aberration.wrong ? '' : `, ${aberration.wrong.toFixed(3)} mm if it is the wrong way round`);
  return [
    `The beam on the lens is ${span(diameter.least, diameter.most, 1)} mm wide: spot ${span(spot.least, spot.most, 3)} mm, sharp over ${depth.toFixed(1)} mm.`,
    ...(aberration ? [`The lens itself blurs by up to ${aberration.right.toFixed(3)} mm${wrong}.`] : []),
    ...(lean ? [`By the mark farthest off, the cut leans behind the lens: ${markInWords(lean.right * 1000, lean.up * 1000, frame)} (mrad, ± ${(lean.u * 1000).toFixed(1)}).`] : []),
    ...(shift ? [`Off plumb, the beam puts the spot ${markInWords(shift.right, shift.up, frame)} of the lens’s middle (mm, ± ${Math.max(shift.u.right, shift.u.up).toFixed(1)}).`] : []),
  ];
}

export function eyewearInWords({ exposures }: Eyewear): string[] {
  const each = exposures.map(({ time, density }) => `${(Math.ceil(density * 10) / 10).toFixed(1)} for ${time < 1 ? `${Number((time * 1000).toPrecision(3))} ms` : `${time} s`}`);
  return [
    `Optical density of at least ${each.join(', ')} in the full beam at the tube.`,
    'An aid, not a rating: eyewear must also withstand the beam. The laser safety officer and the manual decide.',
  ];
}

function cornerInWords(carriages: StationReport['carriages'], corner: LightCorner): string {
  return placeInWords(carriages, 'here', corner.with);
}

function labelled(place: string): string {
  return place === '' ? '' : `${place}: `;
}

/** Below this a loss is not told in figures. */
const LITTLE = 0.001;

function shareInWords(share: number, u = 0): string {
  if (share < LITTLE) return 'under 0.1 %';
  return `${(share * 100).toFixed(1)}${u >= 0.0005 ? ` ± ${(u * 100).toFixed(1)}` : ''} %`;
}
