/**
 * The diameter of the beam on a tape at any setting of the carriages, and the contributions of the machine's values to
 * its uncertainty.
 */
import { lookup, type Machine, type PathElement, type Quantity, type Reading } from '../model/index.ts';
import { halfChange } from './combined-uncertainty.ts';
import { tubeOf, type Tube } from './tube.ts';
import { widthsOn, type Width } from './widths-on.ts';

type Carriages = Reading['carriages'];

interface Run {
  readonly tube: Tube;
  /** The path up to the tape, and the leg before each element. */
  readonly path: readonly PathElement[];
  readonly legs: readonly (Quantity & { readonly name: string })[];
}

/** 1/e² diameter, mm, with each carriage at its leg of a reading; undefined if a value of the machine is missing. */
export function diameterOn(machine: Machine, station: string, carriages: Carriages): number | undefined {
  return widthOn(machine, station, carriages)?.diameter;
}

/** The same, with the distance along the path. */
export function widthOn(machine: Machine, station: string, carriages: Carriages): Width | undefined {
  const run = runTo(machine, station, carriages);
  const width = run && widthOf(run);
  return width && Number.isFinite(width.diameter) ? width : undefined;
}

/**
 * By the name of a value in expressions (`beam.diameter`, `M2.far`): c u(x) of the diameter, mm, by the central
 * difference over ± u(x) (JCGM 100:2008, 5.1.3, note 2). Empty if no value has a ±, or the diameter is unknown.
 */
export function diameterComponents(
  machine: Machine,
  station: string,
  carriages: Carriages,
): ReadonlyMap<string, number> {
  const run = runTo(machine, station, carriages);
  return new Map(run ? [...ofTube(run), ...ofLegs(run), ...ofLens(run)] : []);
}

type Part = readonly [name: string, value: number];

function ofTube(run: Run): Part[] {
  const { figures, beamIf } = run.tube;
  const values = figures.map(({ value }) => value);
  const at = (k: number, value: number) => widthOf(run).diameterOf(beamIf(...values.with(k, value)));
  return figures.flatMap((figure, k) => part(`beam.${figure.name}`, figure, (value) => at(k, value)));
}

function ofLegs(run: Run): Part[] {
  return run.legs.flatMap((leg, k) =>
    part(leg.name, leg, (value) => diameterOf({ ...run, legs: run.legs.with(k, { ...leg, value }) })),
  );
}

function ofLens(run: Run): Part[] {
  return run.path.flatMap((element, k) => {
    const { name, focal } = element;
    return focal
      ? part(`${name}.focal`, focal, (value) =>
          diameterOf({ ...run, path: run.path.with(k, { ...element, focal: { value } }) }),
        )
      : [];
  });
}

function part(name: string, { value, u }: Quantity, of: (value: number) => number): Part[] {
  return u === undefined ? [] : [[name, halfChange(of, value, u)]];
}

function diameterOf(run: Run): number {
  return widthOf(run).diameter;
}

function widthOf({ tube, path, legs }: Run) {
  return widthsOn({ path }, tube, legs).at(-1)!;
}

function runTo({ source, path }: Machine, station: string, carriages: Carriages): Run | undefined {
  const tube = tubeOf(source);
  const upTo = path.slice(0, path.findIndex(({ name }) => name === station) + 1);
  const legs = upTo.flatMap((element) => legOf(element, lookup(carriages, element.name)) ?? []);
  return typeof tube === 'string' || upTo.length === 0 || legs.length < upTo.length
    ? undefined
    : { tube, path: upTo, legs };
}

/** The leg of a stop has the stop's name and ±. */
function legOf({ name, leg, stops = {} }: PathElement, at: number | undefined): Run['legs'][number] | undefined {
  if (leg) return { name: `${name}.leg`, ...leg };
  const [stop, length] = Object.entries(stops).find(([, { value }]) => value === at) ?? [];
  if (length) return { name: `${name}.${stop}`, ...length };
  return at === undefined ? undefined : { name, value: at };
}
