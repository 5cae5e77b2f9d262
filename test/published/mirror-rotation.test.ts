/**
 * Reflection, mirrors that turn, and three-point mounts, against closed forms.
 *
 * Each row says where its expectation comes from: *published* (with the text), *identity* (provable, no source needed),
 * or *computed independently* (closed form evaluated outside this program, to the digits given). R-2: P. Hewitt,
 * Conceptual Physics, 12th ed., ch. 28, "Think and Solve" 38 (p. 540), its solution read on gradesaver.com; the book
 * itself was not seen. K-1: abridgedoptics.com/tools/mount-sensitivity-calculator: tilt per turn is the screw's advance
 * over the lever arm, a reflected beam turns twice the tilt. K-2 is geometry; that cheap mounts rest on three tips is
 * common practice. Axes of the vector tests: mirror normal z, plane of incidence x–z. Units: rad unless a test says
 * mrad.
 */
import { describe, expect, test } from 'vitest';
import {
  cross,
  dot,
  length,
  nominal,
  reflect,
  trace,
  turnEffect,
  type Mount,
  type Vector,
} from '../../src/optics/index.ts';
import { ENGRAVER, FAR, mirror, posed } from '../optics/machine.ts';

const DEGREE = Math.PI / 180;
const FACING: Vector = [0, 0, 1];

const angleBetween = (a: Vector, b: Vector): number => Math.atan2(length(cross(a, b)), dot(a, b));
const arrivingAt = (incidence: number): Vector => [Math.sin(incidence), 0, -Math.cos(incidence)];
/**
 * The facing normal, turned about the y axis (normal of the plane of incidence) or the x axis (mirror ∩ that plane).
 */
const aboutY = (angle: number): Vector => [Math.sin(angle), 0, Math.cos(angle)];
const aboutX = (angle: number): Vector => [0, -Math.sin(angle), Math.cos(angle)];

function expectVector(result: Vector, expected: Vector, digits = 14): void {
  result.forEach((component, axis) => expect(component).toBeCloseTo(expected[axis] ?? NaN, digits));
}

describe('R-1 reflection d − 2(d·n)n (identity)', () => {
  const normals: readonly Vector[] = [FACING, aboutX(0.4), aboutY(-1.1), [2 / 3, -1 / 3, 2 / 3]];
  const unit: readonly Vector[] = [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ];

  test.each(normals)('normal (%f, %f, %f): twice is nothing, the determinant is −1', (...normal) => {
    const [x, y, z] = unit.map((d) => reflect(d, normal as unknown as Vector)) as [Vector, Vector, Vector];
    [x, y, z].forEach((image, axis) => expectVector(reflect(image, normal as unknown as Vector), unit[axis] as Vector));
    expect(dot(x, cross(y, z))).toBeCloseTo(-1, 14);
  });

  test('the angle of incidence is that of reflection, and the two sides of a mirror reflect alike', () => {
    expectVector(reflect(arrivingAt(0.6), FACING), [Math.sin(0.6), 0, Math.cos(0.6)]);
    expectVector(reflect(arrivingAt(0.6), [0, 0, -1]), reflect(arrivingAt(0.6), FACING));
  });
});

describe('R-2 turned in the plane of incidence, the beam turns by exactly twice the angle (published: Hewitt, Conceptual Physics, 12th ed., ch. 28)', () => {
  test.each([0.001, 0.01, DEGREE, 5 * DEGREE, -0.2])('%f rad', (angle) => {
    const [before, after] = [FACING, aboutY(angle)].map((normal) => reflect(arrivingAt(0.7), normal)) as [
      Vector,
      Vector,
    ];
    expect(angleBetween(before, after)).toBeCloseTo(2 * Math.abs(angle), 14);
    expect(after[1]).toBe(0);
  });
});

describe('R-3 turned about the axis in mirror and plane of incidence: Δ = 2 asin(sin θ cos i) (identity, no text found)', () => {
  test.each([0, 20, 45, 60, 80].flatMap((i) => [0.001, 0.05, 0.4].map((angle) => [i, angle] as const)))(
    'incidence %f°, turned by %f rad',
    (degrees, angle) => {
      const incidence = degrees * DEGREE;
      const after = reflect(arrivingAt(incidence), aboutX(angle));
      const turned = angleBetween(reflect(arrivingAt(incidence), FACING), after);
      expect(turned).toBeCloseTo(2 * Math.asin(Math.sin(angle) * Math.cos(incidence)), 14);
      expect(Math.asin(Math.abs(after[1]))).toBeCloseTo(Math.asin(Math.sin(2 * angle) * Math.cos(incidence)), 14);
    },
  );
});

describe('R-4 the same at 45°, on the machine’s own first mirror (computed independently)', () => {
  test.each([
    ['1 mrad', 0.001, 0.00141421344452194, 0.00141421309096824],
    ['10 mrad', 0.01, 0.0141420177705383, 0.0141416641862107],
    ['1°', DEGREE, 0.0246820563917664, 0.0246801761968976],
    ['5°', 5 * DEGREE, 0.123334989929722, 0.123098458389466],
  ])('%s', (_, angle, whole, outOfPlane) => {
    const tilted = posed(ENGRAVER, 0, { piston: 0, right: 0, up: Math.tan(angle) });
    const direction = trace(ENGRAVER, tilted, FAR)[1]?.ray.direction ?? [NaN, NaN, NaN];
    expect(angleBetween([0, -1, 0], direction) / whole).toBeCloseTo(1, 12);
    expect(Math.asin(Math.abs(direction[2])) / outOfPlane).toBeCloseTo(1, 12);
  });
});

describe('R-5 several mirrors (identity)', () => {
  test.each([0, 0.3, Math.PI / 4, Math.PI / 2])(
    'two at %f rad turn a beam by twice that about their edge',
    (dihedral) => {
      const there = reflect(reflect([0.48, 0.6, -0.64], FACING), aboutX(dihedral));
      expect(there[0]).toBeCloseTo(0.48, 14);
      const [before, after] = [Math.atan2(-0.64, 0.6), Math.atan2(there[2], there[1])];
      expect(Math.cos(after - before)).toBeCloseTo(Math.cos(2 * dihedral), 14);
      expect(Math.sin(after - before)).toBeCloseTo(Math.sin(2 * dihedral), 14);
    },
  );

  test('a corner of three sends every beam back the way it came', () => {
    const corner: readonly Vector[] = [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ];
    expectVector(corner.reduce(reflect, [0.48, 0.6, -0.64] as Vector), [-0.48, -0.6, 0.64]);
  });
});

describe('R-6 pivot rule (published: P. S. Thompson, Opt. Eng. 57(2) 025106, 2018, abstract)', () => {
  /** Mark 2 m past the second of two mirrors 0.2 m apart, both tilted in the plane of incidence. */
  function markAt(first: number, second: number): number {
    const point = { name: 'point', kind: 'station', leg: 2000, inset: 0 } as const;
    const layout = {
      fires: 'left',
      elements: [mirror('M1', 'front', 90), mirror('M2', 'left', 200), point],
    } as const;
    const tilts = [first, second, 0].map((right) => ({ pose: { piston: 0, right, up: 0 }, shift: [0, 0, 0] as const }));
    return trace(layout, { ...nominal(layout), mirrors: tilts }, {})[2]?.right ?? NaN;
  }

  test('3 turns at the first mirror and 3.3 at the second leave the beam on the point, to first order', () => {
    const turn = 1e-4;
    const alone = markAt(3 * turn, 0);
    expect(Math.abs(alone)).toBeCloseTo(2 * 3 * turn * 2200, 2);
    // A reflection turns the beam's error over: what the first mirror did, the second undoes by turning the same way.
    const combined = markAt(3 * turn, 3.3 * turn);
    expect(Math.abs(combined)).toBeLessThan(1e-3 * Math.abs(alone));
  });
});

/** A pivot at the middle and screws at right angles, `lever` mm out. */
const kinematic = (pitch: number, lever: number): Mount => ({
  pivot: { right: 0, up: 0 },
  screws: [
    { name: 'across', right: lever, up: 0, pitch, in: 1 },
    { name: 'tall', right: 0, up: lever, pitch, in: 1 },
  ],
});

describe('K-1 tilt per turn is pitch over lever, and the beam turns twice that (published: Abridged Optics, Mount Sensitivity Calculator)', () => {
  test.each([
    ['across', 0.01, 0],
    ['tall', 0, 0.01],
  ])('one turn of 0.5 mm at 50 mm tilts by 10 mrad: %s', (screw, right, up) => {
    const pose = turnEffect(kinematic(0.5, 50), screw);
    expect(pose).toEqual({
      piston: expect.closeTo(0, 15),
      right: expect.closeTo(right, 15),
      up: expect.closeTo(up, 15),
    });
  });

  test('and in the plane of incidence the beam turns by 20 mrad, to first order', () => {
    const pose = turnEffect(kinematic(0.5, 50), 'across') ?? { piston: NaN, right: NaN, up: NaN };
    const direction = trace(ENGRAVER, posed(ENGRAVER, 0, pose), FAR)[1]?.ray.direction ?? [NaN, NaN, NaN];
    expect(angleBetween([0, -1, 0], direction)).toBeCloseTo(0.02, 5);
  });
});

test('K-2 a plate stands on three contacts, no more, no fewer (identity: three points that are not on a line have one plane)', () => {
  const { screws, pivot = { right: 0, up: 0 } } = kinematic(0.5, 50);
  const fourth = { name: 'fourth', right: 50, up: 50, pitch: 0.5, in: 1 } as const;
  expect(turnEffect({ screws }, 'across')).toBeUndefined();
  expect(turnEffect({ screws, pivot }, 'across')).toBeDefined();
  expect(turnEffect({ screws: [...screws, fourth], pivot }, 'across')).toBeUndefined();
});

describe('K-3 exact tilt atan(pitch/lever), mrad (computed independently)', () => {
  test.each([
    [0.5, 50, 9.999666687],
    [0.7, 45, 15.554301051],
    [0.25, 50, 4.999958333],
    [25.4 / 80, 38.1, 8.33314044],
  ])('pitch %f at %f mm: %f mrad, and the beam turns twice that', (pitch, lever, milliradians) => {
    const pose = turnEffect(kinematic(pitch, lever), 'across') ?? { piston: NaN, right: NaN, up: NaN };
    expect(Math.atan(pose.right) * 1000).toBeCloseTo(milliradians, 8);
    const direction = trace(ENGRAVER, posed(ENGRAVER, 0, pose), FAR)[1]?.ray.direction ?? [NaN, NaN, NaN];
    expect(angleBetween([0, -1, 0], direction) * 1000).toBeCloseTo(2 * milliradians, 8);
  });
});

describe('K-4 the normal from three contacts (0,0,0) (L,0,h1) (0,L,h2) (identity)', () => {
  test.each([
    [50, 0.2, -0.1],
    [44, 0.07, 0.07],
    [20, 0, 1.5],
  ])('L %f, h1 %f, h2 %f: normal (−h1/L, −h2/L, 1), and the middle rises by (h1 + h2)/2', (side, h1, h2) => {
    const half = side / 2;
    const square: Mount = {
      pivot: { right: -half, up: -half },
      screws: [
        { name: 'one', right: half, up: -half, pitch: h1, in: 1 },
        { name: 'two', right: -half, up: half, pitch: h2, in: 1 },
      ],
    };
    const [one, two] = ['one', 'two'].map((name) => turnEffect(square, name));
    expect((one?.right ?? NaN) + (two?.right ?? NaN)).toBeCloseTo(h1 / side, 14);
    expect((one?.up ?? NaN) + (two?.up ?? NaN)).toBeCloseTo(h2 / side, 14);
    expect((one?.piston ?? NaN) + (two?.piston ?? NaN)).toBeCloseTo((h1 + h2) / 2, 14);
  });
});
