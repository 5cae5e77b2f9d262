/**
 * Machines drawn at random: any path, any mount, everything a little out of place, every screw turned.
 *
 * Sizes are those of real machines with large turns (legs to 1.5 m, a turn each way), so that every difference of
 * practical size occurs here. Units: mm, slopes, turns.
 */
import fc from 'fast-check';
import { addPose, placesProblem, scalePose, turnEffect } from '../../src/optics/index.ts';
import type { Carriages, Direction, Element, Layout, Mount, Pose, Setting, Vector } from '../../src/optics/index.ts';
import { acrossFrom } from './layouts.ts';
import type { Turns } from './referee.ts';

export interface Machine {
  readonly layout: Layout;
  readonly setting: Setting;
  readonly turns: Turns;
  readonly carriages: Carriages;
}

const between = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
const spot = fc.record({ right: between(-40, 40), up: between(-40, 40) });

const screw = (name: string) =>
  fc.record({
    name: fc.constant(name),
    right: between(-40, 40),
    up: between(-40, 40),
    pitch: between(0.2, 1.3),
    in: fc.constantFrom<1 | -1>(1, -1),
  });

/** Three screws, or a pivot and two, at least 15 mm apart as a triangle, so that each of its sides steers. */
export const mount: fc.Arbitrary<Mount> = fc
  .oneof(
    fc.record({ screws: fc.tuple(screw('A'), screw('B'), screw('C')) }),
    fc.record({ screws: fc.tuple(screw('A'), screw('B')), pivot: spot }),
  )
  .filter((drawn) => placesProblem(drawn) === undefined && stiff(drawn));

function stiff(drawn: Mount): boolean {
  const [a, b, c] = drawn.pivot === undefined ? drawn.screws : [...drawn.screws, drawn.pivot];
  if (a === undefined || b === undefined || c === undefined) return false;
  const area = Math.abs((b.right - a.right) * (c.up - a.up) - (c.right - a.right) * (b.up - a.up));
  const longest = Math.max(
    ...[
      [a, b],
      [b, c],
      [c, a],
    ].map(([p, q]) => Math.hypot(p!.right - q!.right, p!.up - q!.up)),
  );
  return area / longest >= 15;
}

const elementAt = (name: string, way: number, arrives: Direction): fc.Arbitrary<Element> =>
  fc.record({
    name: fc.constant(name),
    kind: fc.constant('mirror'),
    stops: fc.record({ near: between(60, 300), far: between(400, 1500) }),
    inset: between(0, 20),
    sends: fc.constant(acrossFrom(arrives)[way] ?? arrives),
    mount,
  });

const open = (name: string, kind: 'lens' | 'station'): fc.Arbitrary<Element> =>
  fc.record({ name: fc.constant(name), kind: fc.constant(kind), leg: between(30, 90), inset: between(0, 10) });

const layout: fc.Arbitrary<Layout> = fc
  .tuple(
    fc.constantFrom<Direction>('left', 'right', 'front', 'rear', 'up', 'down'),
    fc.array(fc.nat(3), { maxLength: 5 }),
  )
  .chain(([fires, ways]) => {
    let arrives = fires;
    const mirrors = ways.map((way, index) => {
      const element = elementAt(`M${index + 1}`, way, arrives);
      arrives = acrossFrom(arrives)[way] ?? arrives;
      return element;
    });
    return fc.record({
      fires: fc.constant(fires),
      elements: fc.tuple(...mirrors, open('lens', 'lens'), open('nozzle', 'station')),
    });
  });

const turn = between(-1, 1);
const slope = between(-0.005, 0.005);
const shift: fc.Arbitrary<Vector> = fc.tuple(between(-5, 5), between(-5, 5), between(-5, 5));

export const machine: fc.Arbitrary<Machine> = layout.chain((drawn) => {
  const count = { minLength: drawn.elements.length, maxLength: drawn.elements.length };
  return fc
    .record({
      turns: fc.array(fc.record({ A: turn, B: turn, C: turn }), count),
      shifts: fc.array(shift, count),
      apertures: fc.array(fc.record({ right: between(-2, 2), up: between(-2, 2) }), count),
      legs: fc.array(between(60, 1500), count),
      tube: fc.record({ right: between(-3, 3), up: between(-3, 3), turnRight: slope, turnUp: slope }),
    })
    .map(({ turns, shifts, apertures, legs, tube }) => ({
      layout: drawn,
      turns,
      carriages: Object.fromEntries(
        drawn.elements.flatMap(({ name, stops }, at) => (stops ? [[name, legs[at] ?? NaN]] : [])),
      ),
      setting: {
        tube,
        apertures,
        mirrors: drawn.elements.map((element, at) => ({
          pose: poseOf(element, turns[at] ?? {}),
          shift: shifts[at] ?? [0, 0, 0],
        })),
      },
    }));
});

function poseOf({ mount: drawn = { screws: [] } }: Element, turns: Readonly<Record<string, number>>): Pose {
  return drawn.screws
    .map(({ name }) => scalePose(turnEffect(drawn, name) ?? { piston: NaN, right: NaN, up: NaN }, turns[name] ?? 0))
    .reduce(addPose, { piston: 0, right: 0, up: 0 });
}
