/** The beam at every aperture of the path, with the carriages at one corner. */
import type { Evaluation, LightAtStation, LightCorner, Machine, Quantity } from '../model/index.ts';
import type { Beam } from '../optics/index.ts';
import { transmission } from './clipping.ts';
import type { Corner } from './corners.ts';
import { onFace } from './face.ts';
import { isHit, lastAt, type Hit, type Mark } from './marks.ts';
import { combinedUncertainty } from './combined-uncertainty.ts';
import type { Tube } from './tube.ts';
import { widthsOn, type Width } from './widths-on.ts';

export function atCorner(machine: Machine, tube: Tube, stations: Evaluation['stations'], corner: Corner): LightCorner {
  const marks = corner.legs.map((_, index) => lastAt(stations, machine, index, corner));
  const losses = widthsOn(machine, tube, corner.legs).map((width, index) =>
    atStation(machine, index, width, withLens(marks, index, width)),
  );
  const lossInSeries = (...fractions: number[]) =>
    1 - fractions.reduce((passes, fraction) => passes * (1 - fraction), 1);
  const clippingLoss = (beam: Beam) => lossInSeries(...losses.map(({ lossOf }) => lossOf(beam)));
  // An error of the tube's values changes the loss at all apertures together; errors of marks and legs are independent.
  const independentU = combinedUncertainty(
    lossInSeries,
    losses.map(({ station, independentU: u }) => ({ value: station.lost, u })),
  );
  const commonU = combinedUncertainty((...figures) => clippingLoss(tube.beamIf(...figures)), tube.figures);
  return {
    with: corner.with,
    stations: losses.map(({ station }) => station),
    lost: clippingLoss(tube.beam),
    lostU: Math.hypot(independentU, commonU),
  };
}

interface StationLoss {
  readonly station: LightAtStation;
  /** The clipping loss of another beam here, and its uncertainty without that of the tube's values. */
  lossOf(beam: Beam): number;
  readonly independentU: number;
}

/**
 * The position of the beam at an aperture with the lens fitted: tapes are shot with it out. A thin lens deflects the
 * beam in proportion to the offset with which the beam meets it; if the lens was not shot, the beam counts as centred
 * on it.
 */
function withLens(marks: readonly (Mark | undefined)[], index: number, { refraction }: Width): Mark | undefined {
  const mark = marks[index];
  const met = refraction && marks[refraction.lens];
  // A beam that misses without the lens may pass with it.
  if (refraction && mark && !isHit(mark)) return undefined;
  if (!mark || !met || !isHit(mark) || !isHit(met)) return mark;
  return {
    right: mark.right - refraction.fraction * met.right,
    up: mark.up - refraction.fraction * met.up,
    u: Math.hypot(mark.u, refraction.fraction * met.u),
  };
}

const CENTRED: Hit = { right: 0, up: 0, u: 0 };

function atStation(
  machine: Machine,
  index: number,
  { along, diameter, u: wideU, independentU, diameterOf }: Width,
  mark: Mark | undefined,
): StationLoss {
  const { name, aperture } = machine.path[index]!;
  const width = { name, along, diameter, u: wideU };
  if (mark && !isHit(mark))
    return { station: { ...width, missed: true, lost: 1, lostU: 0 }, lossOf: () => 1, independentU: 0 };
  const { right, up, u } = mark ?? CENTRED;
  const given = (wide: number): Quantity[] => [
    { value: diameter, u: wide },
    { value: right, u },
    { value: up, u },
  ];
  const loss = (wide: number, x: number, y: number) => 1 - transmission(aperture, wide, Math.hypot(x, y));
  const face = onFace(machine, index);
  const station: LightAtStation = {
    ...width,
    ...(mark && { offset: Math.hypot(right, up), offsetU: u }),
    lost: loss(diameter, right, up),
    lostU: combinedUncertainty(loss, given(wideU)),
    ...(face && { lostOnFace: face(diameter, right, up), lostOnFaceU: combinedUncertainty(face, given(wideU)) }),
  };
  return {
    station,
    lossOf: (beam) => loss(diameterOf(beam), right, up),
    independentU: combinedUncertainty(loss, given(independentU)),
  };
}
