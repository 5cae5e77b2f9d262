/**
 * Eye limits for far-infrared lasers, as an aid in choosing eyewear and no more: the laser safety officer decides.
 *
 * Limits between 2.6 µm and 1 mm wavelength: French Labour Code, annex II to R. 4452, table 2.2 (it transposes
 * Directive 2006/25/EC): 100 J/m² from 1 to 100 ns, 5600 t^¼ J/m² up to 10 s. From 10 s on 1000 W/m²: not read in a law
 * or standard, but in a public program after Maini, Lasers and Optoelectronics, table A.4; the two agree at 10 s to 0.4
 * %. Units: s, W, J/m², W/m²; lengths mm.
 */
const SHORTEST = 1e-9;
const LONGEST = 3e4;
/** s: from here on the limit is an irradiance. */
const STEADY = 10;

/**
 * Most permissible at the eye, J/m², in an exposure of `time` seconds; undefined outside 2.6 µm … 1 mm or 1 ns … 30 000
 * s.
 */
export function permissibleExposure(wavelength: number, time: number): number | undefined {
  if (!(wavelength >= 2.6e-3 && wavelength <= 1 && time >= SHORTEST && time <= LONGEST)) return undefined;
  if (time < 1e-7) return 100;
  return time < STEADY ? 5600 * time ** 0.25 : 1000 * time;
}

/** The source of the limit for this time. */
export function limitSource(time: number): string {
  return time < STEADY
    ? 'French Labour Code, annex II to R. 4452, table 2.2'
    : 'a public program after Maini, Lasers and Optoelectronics, table A.4; not read in a standard';
}

/** Power spread evenly over a disc, W/m². For the peak of a Gaussian beam the disc is as wide as its 1/e diameter. */
export function irradiance(power: number, diameter: number): number {
  return power / ((Math.PI * (diameter / 1000) ** 2) / 4);
}

/** Powers of ten by which eyewear must weaken the beam: log₁₀(exposure/permissible), not below 0. */
export function opticalDensity(exposure: number, permissible: number): number {
  return Math.max(0, Math.log10(exposure / permissible));
}
