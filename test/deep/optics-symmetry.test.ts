/**
 * The marks of a machine that is turned or mirrored are turned or mirrored likewise.
 *
 * These catch sign errors that no comparison of two programs can, because they compare a machine with its own image.
 *
 * About the vertical, a whole machine turned by 90° keeps its numbers on every level leg: right and up are the viewer's
 * own. On vertical legs "up" stays the machine's rear, so there the *numbers* turn while the place in space goes with
 * the machine. Therefore marks are compared as vectors of the machine frame, and so are the tube and apertures of
 * vertical legs.
 */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  add,
  arriving,
  position,
  scale,
  trace,
  viewer,
  type Direction,
  type Element,
  type Layout,
  type Mount,
  type Pose,
  type Setting,
  type Vector,
} from '../../src/optics/index.ts';
import { machine } from '../optics/random-machine.ts';
import { drawn } from '../support/amount.ts';

interface Across {
  readonly right: number;
  readonly up: number;
}

const SAME = { right: 'right', left: 'left', rear: 'rear', front: 'front', up: 'up', down: 'down' } as const;
const TURNED: Record<Direction, Direction> = { ...SAME, right: 'rear', rear: 'left', left: 'front', front: 'right' };
const IMAGE: Record<Direction, Direction> = { ...SAME, right: 'left', left: 'right' };

const turn = ([x, y, z]: Vector): Vector => [-y, x, z];
const inSpace = (leg: Direction, { right, up }: Across): Vector =>
  add(scale(viewer(leg).right, right), scale(viewer(leg).up, up));

/** A vector across a leg, as seen along the same leg of the turned machine. */
function turnAcross(leg: Direction, across: Across): Across {
  const [x, y, z] = turn(inSpace(leg, across));
  const { right, up } = viewer(TURNED[leg]);
  return { right: x * right[0] + y * right[1] + z * right[2], up: x * up[0] + y * up[1] + z * up[2] };
}

function turnSetting(layout: Layout, setting: Setting): Setting {
  const slope = turnAcross(layout.fires, { right: setting.tube.turnRight, up: setting.tube.turnUp });
  return {
    tube: { ...turnAcross(layout.fires, setting.tube), turnRight: slope.right, turnUp: slope.up },
    mirrors: setting.mirrors.map(({ pose, shift }) => ({ pose, shift: turn(shift) })),
    apertures: setting.apertures.map((aperture, at) => turnAcross(arriving(layout, at), aperture)),
  };
}

const rename = (layout: Layout, words: Record<Direction, Direction>, mount: (m: Mount) => Mount): Layout => ({
  fires: words[layout.fires],
  elements: layout.elements.map(
    (element): Element => ({
      ...element,
      ...(element.sends && { sends: words[element.sends] }),
      ...(element.mount && { mount: mount(element.mount) }),
    }),
  ),
});

test('a machine turned by 90° about the vertical has the same marks in space, turned', () => {
  fc.assert(
    fc.property(machine, ({ layout, setting, carriages }) => {
      const turned = rename(layout, TURNED, (mount) => mount);
      const before = trace(layout, setting, carriages);
      const after = trace(turned, turnSetting(layout, setting), carriages);
      before.forEach((mark, at) => {
        const leg = arriving(layout, at);
        expect(after[at] === undefined).toBe(mark === undefined);
        if (mark === undefined) return;
        const expected = turn(inSpace(leg, mark));
        const result = inSpace(TURNED[leg], after[at] ?? { right: NaN, up: NaN });
        expected.forEach((component, axis) => expect(result[axis]).toBeCloseTo(component, 8));
        if (leg !== 'up' && leg !== 'down') expect(after[at]?.right).toBeCloseTo(mark.right, 8);
      });
    }),
    drawn(150),
  );
});

test('its elements are at the turned places', () => {
  fc.assert(
    fc.property(machine, ({ layout, carriages }) => {
      const turned = position(
        rename(layout, TURNED, (mount) => mount),
        carriages,
      );
      position(layout, carriages).forEach(({ tape, centre }, at) => {
        turn(tape).forEach((component, axis) => expect(turned[at]?.tape[axis]).toBeCloseTo(component, 9));
        turn(centre).forEach((component, axis) => expect(turned[at]?.centre[axis]).toBeCloseTo(component, 9));
      });
    }),
    drawn(150),
  );
});

const flip = <T extends Across>(across: T): T => ({ ...across, right: -across.right });

const flipMount = ({ screws, pivot }: Mount): Mount => ({
  screws: screws.map(flip),
  ...(pivot && { pivot: flip(pivot) }),
});

function flipSetting({ tube, mirrors, apertures }: Setting): Setting {
  return {
    tube: { ...flip(tube), turnRight: -tube.turnRight },
    mirrors: mirrors.map(({ pose, shift: [x, y, z] }) => ({ pose: flip<Pose>(pose), shift: [-x, y, z] })),
    apertures: apertures.map(flip),
  };
}

test('the machine’s image (left for right) has the images of its marks: right changes sign, up stays', () => {
  fc.assert(
    fc.property(machine, ({ layout, setting, carriages }) => {
      const image = trace(rename(layout, IMAGE, flipMount), flipSetting(setting), carriages);
      trace(layout, setting, carriages).forEach((mark, at) => {
        expect(image[at] === undefined).toBe(mark === undefined);
        if (mark === undefined) return;
        expect(image[at]?.right).toBeCloseTo(-mark.right, 8);
        expect(image[at]?.up).toBeCloseTo(mark.up, 8);
      });
    }),
    drawn(150),
  );
});
