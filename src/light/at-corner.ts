/** The beam at every aperture of the path, with the carriages at one corner. */
import { viewer, directionVector, type Evaluation, type LightAtStation, type LightCorner, type Machine, type PathElement, type Reading } from '../model/index.ts';
import { dot, type Beam } from '../optics/index.ts';
import { passed, passedAtSlant } from './clipping.ts';
import type { Corner } from './corners.ts';
import { slope } from './slope.ts';
import { onward, past, START, widthAfter, type Way, type Width } from './way.ts';

type Stations = Evaluation['stations'];

export function atCorner(machine: Machine, beam: Beam, stations: Stations, corner: Corner): LightCorner {
  let way = START;
  const found = corner.legs.map((leg, index) => {
    const element = machine.path[index]!;
    way = onward(way, leg.value, leg.u);
    const at = atStation(machine, index, widthAfter(beam, way), way, markAt(stations, element.name, corner, machine));
    way = past(way, element);
    return at;
  });
  return { with: corner.with, stations: found, lost: 1 - found.reduce((share, { lost }) => share * (1 - lost), 1) };
}

type Shot = Reading & { readonly right: number; readonly up: number };

/** The beam's place on this aperture as it was last shot, unless something has moved it since. */
export function markAt(stations: Stations, name: string, corner: Corner, machine: Machine): Shot | undefined {
  const station = stations.find((one) => one.name === name);
  if (!station || station.staleSince !== undefined) return undefined;
  const legOf = (element: string) => corner.legs[machine.path.findIndex((one) => one.name === element)]?.value;
  const here = station.readings.filter(({ height, none, carriages }) => height === 0 && !none && Object.entries(carriages).every(([element, leg]) => legOf(element) === leg));
  return here.findLast((reading): reading is Shot => reading.right !== undefined && reading.up !== undefined);
}

function atStation(machine: Machine, index: number, width: Width, way: Way, mark: Shot | undefined): LightAtStation {
  const { name, aperture } = machine.path[index]!;
  const offset = mark && Math.hypot(mark.right, mark.up);
  const passes = (wide: number, off: number) => passed(aperture, wide, Math.abs(off));
  const byDiameter = slope((wide) => passes(wide, offset ?? 0), width.diameter);
  const byOffset = mark ? slope((off) => passes(width.diameter, off), offset!) : 0;
  const face = faceLoss(machine, index, width.diameter, mark);
  return {
    name,
    along: way.along,
    ...width,
    ...(offset !== undefined && { offset }),
    lost: 1 - passes(width.diameter, offset ?? 0),
    lostU: Math.hypot(byDiameter * width.u, byOffset * (mark?.u ?? 0)),
    ...(face !== undefined && { lostOnFace: face }),
  };
}

function faceLoss(machine: Machine, index: number, diameter: number, mark: Shot | undefined): number | undefined {
  const { kind, sends, aperture } = machine.path[index]!;
  if (kind !== 'mirror' || sends === undefined) return undefined;
  const { right, up } = viewer(runsTo(machine, index));
  const out = directionVector(sends);
  // The plane of incidence holds the leg that leaves: to the right, to the left, up or down of who looks along the beam.
  const sideways = Math.abs(dot(out, right)) > Math.abs(dot(out, up));
  const [x, y] = [mark?.right ?? 0, mark?.up ?? 0];
  return 1 - passedAtSlant(aperture, diameter, sideways ? { within: x, across: y } : { within: y, across: x });
}

function runsTo({ source, path }: Machine, index: number): PathElement['sends'] & string {
  return path.slice(0, index).findLast(({ kind, sends }) => kind === 'mirror' && sends !== undefined)?.sends ?? source.fires;
}
