/** The beam in words, the same in print and in a hover. Lengths in the machine's units, angles mrad. */
import { markInWords, placeInWords, slopeInDirections } from '../../words/index.ts';
import {
  inMicrometres,
  lengthsIn,
  type Axes,
  type Eyewear,
  type Focus,
  type Light,
  type LightAtStation,
  type LightBeam,
  type LightCorner,
  type LightRange,
  type StationReport,
  type Units,
} from '../../model/index.ts';
import { decimalsFor } from './value-words.ts';

/** Waist, divergence and M² of the beam. */
export function beamInWords({ waist, at, divergence, M2, u, assumed }: LightBeam, units: Units): string {
  const place = assumed ? 'assumed at the tube’s exit' : `${lengthInWords(-at, u.at, 0, units)} inside the tube`;
  return `Waist ${lengthInWords(waist, u.waist, 1, units)}, ${place}; full divergence ${figure(divergence * MILLI, u.divergence * MILLI, 1)} mrad; M² ${figure(M2, u.M2, 2)}. Machine values without ± are treated as exact.`;
}

/** At one station, a line for each place of the carriages where it differs. */
export function widthsInWords({ corners }: Light, { name, carriages, frame }: StationReport): string[] {
  const lines = corners.flatMap((corner) =>
    corner.stations
      .filter((one) => one.name === name)
      .map((one) => `${labelled(cornerInWords(carriages, corner))}${widthInWords(one, frame.units)}`),
  );
  return [...new Set(lines)];
}

/** `6.2 mm wide; 0.3 ± 0.1 % lost, 2.1 mm off centre`. */
function widthInWords(
  { diameter, u, offset, offsetU = 0, missed, lost, lostU, lostOnFace, lostOnFaceU }: LightAtStation,
  units: Units,
): string {
  const wide = `${lengthInWords(diameter, u, 1, units)} wide`;
  if (missed) return `${wide}; the beam missed the tape here`;
  const where =
    offset === undefined
      ? 'if it is centred (no valid mark here)'
      : `${lengthInWords(offset, offsetU, 1, units)} off centre`;
  const face =
    lostOnFace === undefined || lostOnFace < LITTLE
      ? ''
      : `; ${percentInWords(lostOnFace, lostOnFaceU)} if the aperture is the mirror face`;
  return `${wide}; ${percentInWords(lost, lostU)} lost, ${where}${face}`;
}

/** The loss at all apertures together, a line for each corner. */
export function lossesInWords({ corners }: Light, carriages: StationReport['carriages']): string[] {
  return corners.map(
    (corner) => `${labelled(cornerInWords(carriages, corner))}${percentInWords(corner.lost, corner.lostU)}`,
  );
}

/** Spot, depth of focus, aberration and tilt at the lens, a sentence each. */
export function focusInWords(
  { diameter, spot, depth, aberration, lean, shift }: Focus,
  { frame }: StationReport,
): string[] {
  const { units } = frame;
  const wrong =
    aberration &&
    (aberration.right === aberration.wrong
      ? ''
      : `, ${lengthInWords(aberration.wrong, aberration.u.wrong, 3, units)} if the lens is the wrong way round`);
  return [
    `Beam diameter on the lens: ${spanInWords(diameter, 1, units)}. Spot diameter by diffraction: ${spanInWords(spot, 3, units, FINER)}; depth of focus: ${spanInWords(depth, 1, units, FINER)}.`,
    ...(aberration
      ? [
          `The aberration of the lens adds a blur of up to ${lengthInWords(aberration.right, aberration.u.right, 3, units)}${wrong}.`,
        ]
      : []),
    ...(lean
      ? [
          `After the lens the beam, and with it the cut, leans: ${slopeInDirections(lean.right * MILLI, lean.up * MILLI, frame)} (mrad, ± ${(most(lean.u) * MILLI).toFixed(1)}), computed from the mark at the maximum distance from the centre${lean.isPlumbKnown ? ' and the plumb' : ', if the beam arrives plumb'}.`,
        ]
      : []),
    ...(shift
      ? [
          `The beam is out of plumb: the spot is ${markInWords(shift.right, shift.up, frame)} of the lens centre (± ${lengthsIn(units).doubt(most(shift.u))}).`,
        ]
      : []),
  ];
}

/** `0.0761 to 0.1225 ± 0.0053 mm`: up to `finer` more decimals, as far as the uncertainty has two digits there. */
function spanInWords({ least, most: greatest, u }: LightRange, digits: number, units: Units, finer = 0): string {
  const { fine } = lengthsIn(units);
  const decimals =
    Number(u.toFixed(digits + finer)) === 0 ? digits : Math.min(digits + finer, Math.max(digits, decimalsFor(u)));
  const from = fine(least, decimals);
  const to = lengthInWords(greatest, u, decimals, units);
  return from === fine(greatest, decimals) ? to : `${from} to ${to}`;
}

/** Additional decimals of a spot and its depth if their uncertainty is small enough. */
const FINER = 1;

/** The optical density that eyewear needs, with its source. */
export function eyewearInWords({ wavelength, exposures }: Eyewear): string[] {
  const each = exposures.map(
    ({ time, density, densityU, permissible }) =>
      `${figure(roundedUp(density), roundedUp(densityU), 1)} for ${timeInWords(time)} (limit ${Number(permissible.toPrecision(3))} J/m²)`,
  );
  const surely = exposures.some(({ densityU }) => densityU > 0)
    ? 'Add k times the stated ± for the coverage you want (k = 2 is about 95 %).'
    : 'Power and diameter are treated as exact: they have no ±.';
  const sources = [...new Set(exposures.map(({ time, source }) => `for ${timeInWords(time)} ${source}`))];
  return [
    `Optical density at ${inMicrometres(wavelength)} of at least ${each.join(', ')}, in the full beam at the tube.`,
    `Limits: ${sources.join('; ')}.`,
    surely,
    'An aid, not a rating: eyewear must also withstand the beam, which is stronger still near its focus.',
  ];
}

/** To tenths, rounded up: eyewear too dark is safer than too bright. */
function roundedUp(density: number): number {
  return Math.ceil(density * 10 - 1e-9) / 10;
}

function timeInWords(time: number): string {
  return time < 1 ? `${Number((time * MILLI).toPrecision(3))} ms` : `${Number(time.toPrecision(3))} s`;
}

function cornerInWords(carriages: StationReport['carriages'], corner: LightCorner): string {
  return placeInWords(carriages, 'here', corner.with);
}

function labelled(place: string): string {
  return place === '' ? '' : `${place}: `;
}

/** Smaller losses are shown as `< 0.1 %`. */
const LITTLE = 0.001;
const MILLI = 1000;

function percentInWords(ratio: number, u = 0): string {
  return ratio < LITTLE && u < LITTLE ? '< 0.1 %' : `${figure(ratio * 100, u * 100, 1)} %`;
}

/** `6.2 ± 0.1 mm`, `0.24 in`: with this number of decimals of a millimetre. */
function lengthInWords(value: number, u: number, digits: number, units: Units): string {
  const { fine, unit } = lengthsIn(units);
  const uncertain = fine(u, digits);
  return `${fine(value, digits)}${Number(uncertain) === 0 ? '' : ` ± ${uncertain}`} ${unit}`;
}

/** With its standard uncertainty, if that is not zero at this number of digits. */
function figure(value: number, u: number, digits: number): string {
  const uncertain = u.toFixed(digits);
  return Number(uncertain) === 0 ? value.toFixed(digits) : `${value.toFixed(digits)} ± ${uncertain}`;
}

function most({ right, up }: Axes): number {
  return Math.max(right, up);
}
