/** The beam from the tube to the work. Lengths mm, angles rad, ratios 0 … 1, diameters 1/e². */
import type { Axes } from './axes.ts';

/** The computed beam of a machine. */
export interface Light {
  /** Absent if the machine cell does not give enough; `lacks` lists what is missing. */
  readonly beam?: LightBeam;
  /** One for each combination of the ends of the carriages' travels. */
  readonly corners: readonly LightCorner[];
  readonly focus?: Focus;
  readonly eyewear?: Eyewear;
  /** What is unknown, and which value is missing for it. */
  readonly lacks: readonly LightLack[];
}

/** The beam as it leaves the tube. */
export interface LightBeam {
  /** Diameter of the waist, and its distance from the tube's exit (negative: inside the tube). */
  readonly waist: number;
  readonly at: number;
  /** Full angle. */
  readonly divergence: number;
  readonly M2: number;
  /** Standard uncertainties, from those of the tube's values; 0 if these have none and count as exact. */
  readonly u: { readonly waist: number; readonly at: number; readonly divergence: number; readonly M2: number };
  readonly assumed?: 'waist at the exit';
}

/** The beam at one corner of the bed. */
export interface LightCorner {
  /** By name of the element that a carriage carries: the name of its stop. */
  readonly with: Readonly<Record<string, string>>;
  readonly stations: readonly LightAtStation[];
  /**
   * Clipping loss of all apertures together, as a ratio to the tube's power. Each is computed for an unclipped Gaussian
   * beam, which slightly overestimates where several clip.
   */
  readonly lost: number;
  /** Standard uncertainty: the tube's values are common to all apertures, marks and legs are independent. */
  readonly lostU: number;
}

/** The beam at one aperture. */
export interface LightAtStation {
  readonly name: string;
  /** From the tube's exit along the beam. */
  readonly along: number;
  readonly diameter: number;
  /** Standard uncertainty of the diameter, from the legs, the tube's values and the focal length. */
  readonly u: number;
  /** Distance of the mark from the centre; absent if not shot at this place: then the beam counts as centred. */
  readonly offset?: number;
  /** Standard uncertainty in either direction. */
  readonly offsetU?: number;
  /** The beam missed the tape here: all of it counts as lost. */
  readonly missed?: true;
  readonly lost: number;
  /** Standard uncertainty, from that of the mark and of the diameter. */
  readonly lostU: number;
  /**
   * At a mirror: the clipping loss if the aperture were the mirror's own face, seen at 45° and so narrower by √2 in one
   * direction.
   */
  readonly lostOnFace?: number;
  readonly lostOnFaceU?: number;
}

/** Over the corners of the bed. */
export interface LightRange {
  readonly least: number;
  readonly most: number;
  /** The larger standard uncertainty of the two ends. */
  readonly u: number;
}

/** The beam at and behind the lens. */
export interface Focus {
  readonly station: string;
  /** Of the beam at the lens. */
  readonly diameter: LightRange;
  /** The waist behind the lens: diffraction only, for a beam that the lens's aperture does not clip. */
  readonly spot: LightRange;
  /** Total depth in which the spot's diameter is at most √2 of the waist: two Rayleigh lengths. */
  readonly depth: LightRange;
  /**
   * Blur by spherical aberration of the widest beam, with the lens the right way round and reversed (equal for equal
   * faces).
   */
  readonly aberration?: {
    readonly right: number;
    readonly wrong: number;
    readonly u: { readonly right: number; readonly wrong: number };
  };
  /**
   * The beam's tilt behind the lens, from the mark farthest from the centre, viewer's frame; plumb before the lens if
   * that is not known.
   */
  readonly lean?: Axes & { readonly u: Axes; readonly isPlumbKnown: boolean };
  /** Displacement of the spot by an out-of-plumb beam. */
  readonly shift?: Axes & { readonly u: Axes };
}

/** The eyewear that the full beam at the tube needs. */
export interface Eyewear {
  readonly wavelength: number;
  /** At full power, at the peak of the beam at the tube's exit, W/m². */
  readonly irradiance: number;
  /** Standard uncertainty, from those of power and diameter; 0 if these have none. */
  readonly irradianceU: number;
  /** The exposure that needs the highest optical density first. */
  readonly exposures: readonly Exposure[];
}

/** One exposure time with its limit. */
export interface Exposure {
  /** s */
  readonly time: number;
  /** The maximum permissible exposure of the eye, J/m². */
  readonly permissible: number;
  /** The source of that limit, in words. */
  readonly source: string;
  /** Optical density that reduces the exposure to the limit. */
  readonly density: number;
  /** Standard uncertainty, from that of the irradiance. */
  readonly densityU: number;
}

/** A value that the machine cell lacks. */
export interface LightLack {
  /** In the machine cell: `source.beam.diameter`. */
  readonly field: string;
  readonly say: string;
}
