/** The beam at every aperture of the path, with the carriages at one corner. */
import type { Evaluation, LightAtStation, LightCorner, Machine, Quantity } from '../model/index.ts';
import type { Beam } from '../optics/index.ts';
import { passed } from './clipping.ts';
import type { Corner } from './corners.ts';
import { onFace } from './face.ts';
import { isHit, lastAt, type Hit, type Mark } from './marks.ts';
import { spreadOf } from './spread-of.ts';
import type { Tube } from './tube.ts';
import { widthsOn, type Width } from './way.ts';

export function atCorner(machine: Machine, tube: Tube, stations: Evaluation['stations'], corner: Corner): LightCorner {
  const marks = corner.legs.map((_, index) => lastAt(stations, machine, index, corner));
  const found = widthsOn(machine, tube, corner.legs).map((width, index) =>
    atStation(machine, index, width, withLens(marks, index, width)),
  );
  const through = (...shares: number[]) => 1 - shares.reduce((passes, share) => passes * (1 - share), 1);
  const lost = (beam: Beam) => through(...found.map(({ lostOf }) => lostOf(beam)));
  // Where the tube's figures are off, all apertures lose more together; marks and legs are each on their own.
  const apart = spreadOf(
    through,
    found.map(({ told, apart: u }) => ({ value: told.lost, u })),
  );
  const together = spreadOf((...figures) => lost(tube.beamIf(...figures)), tube.figures);
  return {
    with: corner.with,
    stations: found.map(({ told }) => told),
    lost: lost(tube.beam),
    lostU: Math.hypot(apart, together),
  };
}

interface Found {
  readonly told: LightAtStation;
  /** What another beam would lose here, and how well that is known beyond the tube's figures. */
  lostOf(beam: Beam): number;
  readonly apart: number;
}

/**
 * Where the beam passes an aperture with the lens fitted: tapes are shot with it out. A thin lens takes its share of the
 * offset with which the beam meets it; where that was not shot the beam counts as centred on it.
 */
function withLens(marks: readonly (Mark | undefined)[], index: number, { bent }: Width): Mark | undefined {
  const mark = marks[index];
  const met = bent && marks[bent.lens];
  // A beam that misses without the lens may well pass with it.
  if (bent && mark && !isHit(mark)) return undefined;
  if (!mark || !met || !isHit(mark) || !isHit(met)) return mark;
  return {
    right: mark.right - bent.share * met.right,
    up: mark.up - bent.share * met.up,
    u: Math.hypot(mark.u, bent.share * met.u),
  };
}

const CENTRED: Hit = { right: 0, up: 0, u: 0 };

function atStation(
  machine: Machine,
  index: number,
  { along, diameter, u: wideU, apart, diameterOf }: Width,
  mark: Mark | undefined,
): Found {
  const { name, aperture } = machine.path[index]!;
  const width = { name, along, diameter, u: wideU };
  if (mark && !isHit(mark)) return { told: { ...width, missed: true, lost: 1, lostU: 0 }, lostOf: () => 1, apart: 0 };
  const { right, up, u } = mark ?? CENTRED;
  const given = (wide: number): Quantity[] => [
    { value: diameter, u: wide },
    { value: right, u },
    { value: up, u },
  ];
  const squarely = (wide: number, x: number, y: number) => 1 - passed(aperture, wide, Math.hypot(x, y));
  const face = onFace(machine, index);
  const told: LightAtStation = {
    ...width,
    ...(mark && { offset: Math.hypot(right, up), offsetU: u }),
    lost: squarely(diameter, right, up),
    lostU: spreadOf(squarely, given(wideU)),
    ...(face && { lostOnFace: face(diameter, right, up), lostOnFaceU: spreadOf(face, given(wideU)) }),
  };
  return { told, lostOf: (beam) => squarely(diameterOf(beam), right, up), apart: spreadOf(squarely, given(apart)) };
}
