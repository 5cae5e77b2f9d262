/** The beam at every aperture of the path, with the carriages at one corner. */
import type { Evaluation, LightAtStation, LightCorner, Machine, Quantity } from '../model/index.ts';
import type { Beam } from '../optics/index.ts';
import { passed } from './clipping.ts';
import type { Corner } from './corners.ts';
import { onFace } from './face.ts';
import { isHit, lastAt, type Mark } from './marks.ts';
import { spreadOf } from './spread-of.ts';
import { widthsOn, type Width } from './way.ts';

export function atCorner(machine: Machine, beam: Beam, stations: Evaluation['stations'], corner: Corner): LightCorner {
  const found = widthsOn(machine, beam, corner.legs).map((width, index) => atStation(machine, index, width, lastAt(stations, machine, index, corner)));
  const lost = (...shares: number[]) => 1 - shares.reduce((passes, share) => passes * (1 - share), 1);
  return { with: corner.with, stations: found, lost: lost(...found.map((one) => one.lost)), lostU: spreadOf(lost, found.map((one) => ({ value: one.lost, u: one.lostU }))) };
}

function atStation(machine: Machine, index: number, width: Width, mark: Mark | undefined): LightAtStation {
  const { name, aperture } = machine.path[index]!;
  if (mark && !isHit(mark)) return { name, ...width, missed: true, lost: 1, lostU: 0 };
  const { right = 0, up = 0, u = 0 } = mark ?? {};
  const given: Quantity[] = [{ value: width.diameter, u: width.u }, { value: right, u }, { value: up, u }];
  const squarely = (wide: number, x: number, y: number) => 1 - passed(aperture, wide, Math.hypot(x, y));
  const face = onFace(machine, index);
  return {
    name,
    ...width,
    ...(mark && { offset: Math.hypot(right, up), offsetU: u }),
    lost: squarely(width.diameter, right, up),
    lostU: spreadOf(squarely, given),
    ...(face && { lostOnFace: face(width.diameter, right, up), lostOnFaceU: spreadOf(face, given) }),
  };
}
