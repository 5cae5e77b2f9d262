/**
 * The width of a laser beam along its path: a hyperbola about its waist.
 *
 * Widths are 1/e² diameters, divergences full angles; the beam is round and free of astigmatism. With the waist
 * diameter d₀, far from the waist the beam diverges by Θ = 4 M² λ/(π d₀), and d(z)² = d₀² + Θ² (z − z₀)²: the
 * definitions of ISO 11146 as in the public notes to `laserbeamsize`. Units: mm, rad.
 */
import type { Quantity } from '../model/index.ts';

/** A laser beam along its path. */
export interface Beam {
  /** 1/e² diameter at the waist, mm. */
  readonly waist: number;
  /** Position of the waist, mm along the beam from the tube's exit; negative inside the tube. */
  readonly at: number;
  /** Full angle far from the waist, rad. */
  readonly divergence: number;
  /** Beam quality factor M². */
  readonly M2: number;
  /** mm */
  readonly wavelength: number;
  /** The assumption that is made if only one of divergence and M² is given. */
  readonly assumed?: 'waist at the exit';
}

/** `diameter` at the tube's exit and `wavelength`, mm; `divergence` full angle, rad. */
export interface BeamFigures {
  readonly wavelength: number;
  readonly beam?: { readonly diameter: number; readonly divergence?: number; readonly M2?: number };
}

/** Why there is no beam: no diameter, no divergence and no M², or values that no beam has together. */
export type BeamProblem = 'no diameter' | 'no spread' | 'contradiction';

/**
 * The beam of the workbook's figures. Diameter, divergence and M² together place the waist *behind* the exit, since a
 * tube's beam grows from there on. With one of the two the waist is assumed at the exit; the result states that.
 */
export function beamOf({ wavelength, beam }: BeamFigures): Beam | BeamProblem {
  if (!beam || !(beam.diameter > 0)) return 'no diameter';
  const { diameter, divergence, M2 } = beam;
  if (divergence === undefined) return M2 === undefined ? 'no spread' : fromExit(diameter, M2, wavelength);
  const most = maxM2(wavelength, diameter, divergence);
  const ratio = M2 ?? most;
  // A beam of this diameter cannot have so small a divergence.
  if (ratio > most * (1 + 1e-9) || ratio < 1 - 1e-9) return 'contradiction';
  if (M2 === undefined) return fromExit(diameter, ratio, wavelength);
  const waist = (4 * M2 * wavelength) / (Math.PI * divergence);
  return {
    waist,
    at: -Math.sqrt(Math.max(0, diameter ** 2 - waist ** 2)) / divergence,
    divergence,
    M2,
    wavelength,
  };
}

/** The largest M² of a beam of this diameter at its waist and this divergence. */
export function maxM2(wavelength: number, diameter: number, divergence: number): number {
  return (Math.PI * diameter * divergence) / (4 * wavelength);
}

/** The least divergence, full angle in rad, of a beam of this diameter, by diffraction: 4 M² λ/(π D). */
export function leastDivergence(wavelength: number, diameter: number, M2 = 1): number {
  return (4 * M2 * wavelength) / (Math.PI * diameter);
}

/** Diameter, divergence and M² as written, each with its standard uncertainty if given. */
export interface WrittenBeam {
  readonly diameter: Quantity;
  readonly divergence?: Quantity;
  readonly M2?: Quantity;
}

/** Coverage factor within which values agree with a possible beam. */
const AGREES = 2;

/**
 * The least divergence, rad, of a beam of this diameter and M², if the written one is less: D Θ ≥ 4 M² λ/π, M² ≥ 1.
 * Undefined if the values agree within twice their combined standard uncertainty; without ± they count as exact.
 */
export function missedDivergence(
  wavelength: number,
  { diameter, divergence, M2 = { value: 1 } }: WrittenBeam,
): number | undefined {
  if (divergence === undefined) return undefined;
  const least = leastDivergence(wavelength, diameter.value, Math.max(1, M2.value));
  const relative = ({ value, u = 0 }: Quantity) => u / value;
  const u = Math.hypot(divergence.u ?? 0, least * relative(diameter), least * relative(M2));
  return divergence.value < least * (1 - 1e-9) - AGREES * u ? least : undefined;
}

function fromExit(waist: number, M2: number, wavelength: number): Beam {
  return {
    waist,
    at: 0,
    divergence: (4 * M2 * wavelength) / (Math.PI * waist),
    M2,
    wavelength,
    assumed: 'waist at the exit',
  };
}

/** 1/e² diameter, mm, at `along` mm from the tube's exit. */
export function diameterAt({ waist, at, divergence }: Beam, along: number): number {
  return Math.hypot(waist, divergence * (along - at));
}

/** The derivative of `diameterAt` by `along`. */
function wideningAt(beam: Beam, along: number): number {
  return (beam.divergence ** 2 * (along - beam.at)) / diameterAt(beam, along);
}

/**
 * The beam behind a thin lens of focal length `focal`, mm, at `along` mm: of the same width there, with the curvature
 * of its wavefront changed by −1/f.
 *
 * With D and 1/R of the beam on the lens, 1/R' = 1/R − 1/f and θ = 4 M² λ/(π D): Θ'² = D²/R'² + θ², d₀' = D θ/Θ', and
 * the waist is −D²/(R' Θ'²) behind the lens. That is the complex beam parameter 1/q = 1/R − 4i M² λ/(π D²) through the
 * ABCD matrix of a thin lens, which ISO 11146-1 uses for second moments (the standard from memory). A waist before the
 * lens is virtual.
 */
export function throughLens(beam: Beam, along: number, focal: number): Beam {
  const onLens = diameterAt(beam, along);
  const curvature = wideningAt(beam, along) / onLens - 1 / focal;
  const own = leastDivergence(beam.wavelength, onLens, beam.M2);
  const divergence = Math.hypot(onLens * curvature, own);
  const { M2, wavelength } = beam;
  return {
    waist: (onLens * own) / divergence,
    at: along - (onLens / divergence) * ((onLens * curvature) / divergence),
    divergence,
    M2,
    wavelength,
  };
}

/** Distance from the waist to where the beam is √2 as wide: z = d₀/Θ = π d₀²/(4 M² λ), mm. */
export function rayleighLength({ waist, divergence }: Pick<Beam, 'waist' | 'divergence'>): number {
  return waist / divergence;
}
