/**
 * The model of a machine: its layout for the exact trace, its screws, and per station the carriages that move it. It is
 * built once per machine cell and shared by all later entries.
 *
 * Lengths mm, angles rad, turns in turns (positive = in), directions the machine's.
 */
import {
  addPose,
  arriving,
  seenFromBehind,
  turnEffect,
  viewer,
  type Layout,
  type Mount,
  type Pose,
  type Viewer,
} from '../optics/index.ts';
import {
  lookup,
  PRIORS,
  type Direction,
  type Machine,
  type MountDescription,
  type PathElement,
  type PriorName,
  type Units,
} from '../model/index.ts';
import { unknowns, type Unknowns } from './unknowns.ts';

/** The travel of one carriage: the stops of the element that rides on it. */
export interface Travel {
  readonly element: string;
  /** Index of its element in the path. */
  readonly index: number;
  /** What its element rides on (its own name if that is not given), and the element that its legs are measured from. */
  readonly rides: string;
  readonly from: string;
  /** Direction of growing legs, machine frame. */
  readonly runs: Direction;
  readonly shortest: number;
  readonly longest: number;
  readonly stops: ReadonlyMap<string, number>;
}

/** A place where tape is put. */
export interface Station {
  readonly name: string;
  readonly index: number;
  readonly element: PathElement;
  readonly runs: Direction;
  readonly viewer: Viewer;
  /** Units in which results are shown. */
  readonly units: Units;
  /** Its own travel, if it has stops. */
  readonly own?: Travel;
  /** Every travel that affects the mark here: upstream ones first, its own last. */
  readonly travels: readonly Travel[];
  /** Index of the first lens before it: that lens is out while tape is shot here. */
  readonly lensBefore?: number;
}

/** One screw of one mirror, and the effect of one turn in on the mirror. */
export interface ScrewPlace {
  readonly part: string;
  readonly screw: string;
  /** Index of the mirror in the path. */
  readonly mirror: number;
  /** Absent if the mount's places are unknown: then it is estimated from the marks. */
  readonly effect?: Pose;
  readonly doubt: number;
  readonly mount: MountDescription;
}

/** A machine as the trace and the estimator use it. */
export interface System {
  readonly machine: Machine;
  readonly layout: Layout;
  readonly stations: readonly Station[];
  readonly mirrors: readonly number[];
  readonly screws: readonly ScrewPlace[];
  /** The travels that have two different legs at least. */
  readonly carriages: readonly Travel[];
  readonly unknowns: Unknowns;
}

/** Builds the model of a machine. */
export function system(machine: Machine): System {
  const layout: Layout = {
    fires: machine.source.fires,
    elements: machine.path.map((element) => ({
      name: element.name,
      kind: element.kind,
      inset: element.inset,
      ...(element.leg && { leg: element.leg.value }),
      ...(element.stops && { stops: Object.fromEntries(stopsOf(element)) }),
      ...(element.sends && { sends: element.sends }),
    })),
  };
  const mirrors = machine.path.flatMap((element, index) => (element.kind === 'mirror' ? [index] : []));
  const stations = stationsOf(machine, layout);
  const screws = mirrors.flatMap((index) => screwsOf(machine, index));
  const carriages = stations.flatMap(({ own }) => (own && own.longest > own.shortest ? [own] : []));
  return {
    machine,
    layout,
    mirrors,
    stations,
    screws,
    carriages,
    unknowns: unknowns({ mirrors, stations, carriages, screws }),
  };
}

/** A prior of this machine, or the tool's own; mm, rad, turns or a ratio. */
export function prior(machine: Machine, name: PriorName): number {
  return lookup(machine.priors, name) ?? PRIORS[name].value;
}

/** The station of that name. */
export function station(system: System, name: string): Station | undefined {
  return system.stations.find((candidate) => candidate.name === name);
}

function stopsOf(element: PathElement): Map<string, number> {
  return new Map(Object.entries(element.stops ?? {}).map(([name, leg]) => [name, leg.value]));
}

function stationsOf(machine: Machine, layout: Layout): Station[] {
  const travels: Travel[] = [];
  const lens = machine.path.findIndex(({ kind }) => kind === 'lens');
  return machine.path.map((element, index) => {
    const runs = arriving(layout, index);
    const own = travelOf(element, index, machine.path[index - 1]?.name ?? 'the tube', runs);
    if (own) travels.push(own);
    return {
      name: element.name,
      index,
      element,
      runs,
      units: machine.units,
      viewer: viewer(runs),
      travels: [...travels],
      ...(own && { own }),
      ...(lens >= 0 && lens < index && { lensBefore: lens }),
    };
  });
}

function travelOf(element: PathElement, index: number, from: string, runs: Direction): Travel | undefined {
  if (!element.stops) return undefined;
  const stops = stopsOf(element);
  const legs = [...stops.values()];
  return {
    element: element.name,
    index,
    from,
    runs,
    rides: element.rides ?? element.name,
    stops,
    shortest: Math.min(...legs),
    longest: Math.max(...legs),
  };
}

function screwsOf(machine: Machine, mirror: number): ScrewPlace[] {
  const element = machine.path[mirror];
  const mount = element?.mount === undefined ? undefined : lookup(machine.mounts, element.mount);
  if (!element || !mount) return [];
  const placed = placedMount(mount);
  return Object.keys(mount.screws).map((screw) => {
    const effect = placed && turnEffect(placed, screw);
    return { part: element.name, screw, mirror, doubt: mount.doubt, mount, ...(effect && { effect }) };
  });
}

/** The mount for the optics; undefined if a place or the pitch is unknown. */
function placedMount(mount: MountDescription): Mount | undefined {
  const { pitch } = mount;
  const places = Object.entries(mount.screws);
  if (pitch === undefined || places.some(([, place]) => !place.right || !place.up)) return undefined;
  const toward = mount.in === 'toward beam' ? 1 : -1;
  const screws = places.map(
    ([name, place]) => ({ name, right: place.right!.value, up: place.up!.value, pitch, in: toward }) as const,
  );
  const pivot = mount.pivot && [{ right: mount.pivot.right.value, up: mount.pivot.up.value }];
  const [pivotFromBehind] = seenFromBehind(pivot ?? [], mount.heads);
  return { screws: seenFromBehind(screws, mount.heads), ...(pivotFromBehind && { pivot: pivotFromBehind }) };
}

/**
 * The pose of one turn in of all three screws of a mirror: a piston if the tips are placed so. Undefined without three
 * placed screws.
 */
export function pistonEffect(system: System, mirror: number): Pose | undefined {
  const effects = system.screws.filter((screw) => screw.mirror === mirror).map((screw) => screw.effect);
  if (effects.length !== 3) return undefined;
  return effects.reduce<Pose | undefined>((sum, effect) => sum && effect && addPose(sum, effect), {
    piston: 0,
    right: 0,
    up: 0,
  });
}

/** Every travel of a station at its shortest leg, or at the given one, mm. */
export function carriagesAt(
  station: Station,
  legs: Readonly<Record<string, number>>,
): Readonly<Record<string, number>> {
  return Object.fromEntries(
    station.travels.map((travel) => [travel.element, lookup(legs, travel.element) ?? travel.shortest]),
  );
}
