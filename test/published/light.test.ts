/**
 * Beams, lenses and eye limits against figures from elsewhere.
 *
 * Formulas were read in the source that the heading names; figures marked *computed independently* follow from them and
 * were computed with another library, not read in a document.
 */
import { describe, expect, test } from 'vitest';
import {
  aberrationSpot,
  beamOf,
  diameterAt,
  irradiance,
  missedDivergence,
  opticalDensity,
  permissibleExposure,
  rayleighLength,
  throughLens,
  zincSelenideIndex,
  type Beam,
} from '../../src/optics/index.ts';

const CO2 = 0.0106;
const expectRelative = (result: number | undefined, expected: number, tolerance = 1e-9) =>
  expect(Math.abs(result! / expected - 1)).toBeLessThan(tolerance);
const waistAtExit = (radius: number, M2: number) =>
  beamOf({ wavelength: CO2, beam: { diameter: 2 * radius, M2 } }) as Beam;

describe('Gaussian beams: ISO 11146 definitions as in the public laserbeamsize notes; figures computed independently', () => {
  test.each([
    [2, 1, 1.1855066617, 1.687042397],
    [3, 1, 2.667389989, 1.124694931],
    [2, 1.2, 0.9879222181, 2.024450876],
    [3, 1.3, 2.051838453, 1.462103411],
  ])('waist radius %d mm, M² %d: Rayleigh length %d m, half divergence %d mrad', (radius, M2, metres, half) => {
    expectRelative(rayleighLength(waistAtExit(radius, M2)), metres * 1000);
    expectRelative(waistAtExit(radius, M2).divergence / 2, half / 1000);
  });

  test.each([
    [3, 1, [3.2038943004, 3.7496339492, 4.5149139742]],
    [2, 1.2, [2.845769026, 4.5159279666, 6.3941858081]],
  ])('waist radius %d mm, M² %d: radii after 1, 2, 3 m', (radius, M2, radii) => {
    radii.forEach((expected, metre) =>
      expectRelative(diameterAt(waistAtExit(radius, M2), (metre + 1) * 1000) / 2, expected),
    );
  });
});

describe('zinc selenide: Connolly et al. 1979 by refractiveindex.info; figures computed independently', () => {
  test.each([
    [0.6328, 2.591089707],
    [1.064, 2.48228298],
    [5, 2.429503477],
    [9.3, 2.410596712],
    [10.591, 2.402839061],
    [10.6, 2.402780893773],
    [12, 2.392994254],
  ])('%d µm: %d', (micrometres, index) => expectRelative(zincSelenideIndex(micrometres / 1000), index));

  test('no index outside the fit', () =>
    expect([zincSelenideIndex(0.0005), zincSelenideIndex(0.02)]).toEqual([undefined, undefined]));
});

describe('the spot', () => {
  /**
   * A waist in the front focal plane is the one place for which 4 M² λ f/(π d₀) is exact (Kogelnik and Li, Appl. Opt.
   * 5, 1550 (1966); from memory).
   */
  test.each([
    [50.8, 6, 1, 114.269005008],
    [63.5, 8, 1, 107.127192195],
    [50.8, 6, 1.2, 137.12280601],
    [38.1, 6, 1, 85.701753756],
  ])(
    'f %d, waist %d one focal length before the lens, M² %d: %d µm (computed independently)',
    (focal, waist, M2, spot) => {
      const focused = throughLens(waistAtExit(waist / 2, M2), focal, focal);
      expectRelative(focused.waist, spot / 1000);
      expectRelative(focused.at, 2 * focal);
    },
  );

  test('waist radius 3 mm on a lens of f 63.5: waist radius 71.397899413 µm after 63.464033176 mm (computed independently)', () => {
    const { waist, at } = throughLens(waistAtExit(3, 1), 0, 63.5);
    expectRelative(waist, 2 * 0.071397899413);
    expectRelative(at, 63.464033176);
  });

  /**
   * By complex arithmetic: q = z − z₀ + i z_R, 1/q' = 1/q − 1/f, d₀'² = 4 M² λ Im q'/π, depth 2 Im q', waist −Re q'
   * behind the lens.
   */
  test.each([
    [350, 0.12251573308379665, 1.853602010062348, 51.7747302696609],
    [910, 0.09976067611524993, 1.2289990110802373, 51.706562752254214],
    [1190, 0.09065987410218919, 1.0149928641327917, 51.65618312593524],
    [1750, 0.07612751336140317, 0.7156753417588965, 51.555267882380875],
  ])(
    '6 mm, 3.5 mrad, M² 1.2 at the exit, a lens of f 50.8 after %d mm: spot %d mm, depth %d mm, %d mm behind it (computed independently)',
    (along, spot, depth, behind) => {
      const focused = throughLens(
        beamOf({ wavelength: CO2, beam: { diameter: 6, divergence: 0.0035, M2: 1.2 } }) as Beam,
        along,
        50.8,
      );
      expectRelative(focused.waist, spot);
      expectRelative(2 * rayleighLength(focused), depth);
      expectRelative(focused.at - along, behind);
      // Half the depth away from the waist it is √2 as wide.
      expectRelative(diameterAt(focused, focused.at + depth / 2), spot * Math.SQRT2);
    },
  );

  test('D Θ is at least 4 M² λ/π: 5 mm and M² 1.2 spread by 3.2391214018 mrad or more (ISO 11146 definitions; computed independently)', () => {
    const figures = (divergence: number, u?: number) =>
      missedDivergence(CO2, {
        diameter: { value: 5 },
        divergence: { value: divergence, ...(u !== undefined && { u }) },
        M2: { value: 1.2 },
      });
    expectRelative(figures(0.003), 0.0032391214018);
    expect([figures(0.0033), figures(0.003, 0.00013)]).toEqual([undefined, undefined]);
    expect(figures(0.003, 0.0001)).toBeDefined();
  });
});

describe('spherical aberration: Smith, Modern Optical Engineering, eq. (6.3u); figures computed independently', () => {
  const n = 2.402780894;

  test.each([
    [1, 0.02858789593],
    [0, 0.09168508193],
    [0.5, 0.05286165222],
  ] as const)('bending %d: β F³ = %d', (shapeFactor, beta) => {
    expectRelative(aberrationSpot(n, shapeFactor, 1, 1), beta);
  });

  test.each([
    [50.8, 6, 2.3928117],
    [63.5, 8, 3.6299839],
    [38.1, 6, 4.2538874],
    [50.8, 12, 19.142493],
  ])('curved side to the beam, f %d, D %d: %d µm', (focal, diameter, blur) =>
    expectRelative(aberrationSpot(n, 1, focal, diameter), blur / 1000, 1e-7),
  );
});

describe('eye limits', () => {
  test.each([
    [1e-7, 99.58364696],
    [1e-6, 177.087549],
    [1e-3, 995.8364697],
    [0.1, 3149.111421],
    [0.25, 3959.797975],
    [1, 5600],
    [5, 8373.953175],
  ])(
    '%d s: %d J/m² (5600 t^¼ read in the French Labour Code, annex II, table 2.2; figure computed independently)',
    (time, limit) => expectRelative(permissibleExposure(CO2, time), limit),
  );

  test('50 ns: 100 J/m² (the same table)', () => expect(permissibleExposure(CO2, 5e-8)).toBe(100));

  test('from 10 s on 1000 W/m² (a public program after Maini, table A.4)', () =>
    expect(permissibleExposure(CO2, 100)! / 100).toBe(1000));

  test('no limit for other wavelengths and times', () =>
    expect([permissibleExposure(0.00106, 1), permissibleExposure(CO2, 1e-10), permissibleExposure(CO2, 1e5)]).toEqual([
      undefined,
      undefined,
      undefined,
    ]));

  test.each([
    [40, 3, 5658842.42104517, 3.75272760052],
    [60, 4, 4774648.29275686, 3.67894138636],
    [100, 6, 3536776.51315323, 3.54860761787],
  ])('%d W over %d mm: %d W/m², optical density %d (computed independently)', (power, diameter, spread, density) => {
    expectRelative(irradiance(power, diameter), spread);
    expectRelative(opticalDensity(irradiance(power, diameter), 1000), density);
  });
});
