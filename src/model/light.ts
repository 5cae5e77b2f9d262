/** What the beam does on its way from the tube to the work. Lengths mm, angles rad, shares 0 … 1, diameters 1/e². */
import type { Axes } from './axes.ts';

export interface Light {
  /** Absent where the machine does not say enough; `lacks` tells what. */
  readonly beam?: LightBeam;
  /** One for each way the carriages can stand at the ends of their travels. */
  readonly corners: readonly LightCorner[];
  readonly focus?: Focus;
  readonly eyewear?: Eyewear;
  /** What is not known, because of what. */
  readonly lacks: readonly LightLack[];
}

export interface LightBeam {
  /** Diameter of the waist, and where it stands from the tube's exit (negative: inside the tube). */
  readonly waist: number;
  readonly at: number;
  /** Full angle. */
  readonly divergence: number;
  readonly M2: number;
  /** Standard uncertainties, from those of the tube's figures; 0 where these have none, which counts as exact. */
  readonly u: { readonly waist: number; readonly at: number; readonly divergence: number; readonly M2: number };
  readonly assumed?: 'waist at the exit';
}

export interface LightCorner {
  /** By name of the element that a carriage carries: the name of its stop. */
  readonly with: Readonly<Record<string, string>>;
  readonly stations: readonly LightAtStation[];
  /** Share of the tube's power that all the apertures together stop, each taken to meet a whole Gaussian beam: a little too much where one clips after another. */
  readonly lost: number;
  /** Standard uncertainty, from the tube's figures together and from marks and legs each on its own. */
  readonly lostU: number;
}

export interface LightAtStation {
  readonly name: string;
  /** From the tube's exit along the beam. */
  readonly along: number;
  readonly diameter: number;
  /** Standard uncertainty of the diameter, from those of the legs, the tube's figures and the focal length. */
  readonly u: number;
  /** How far off the middle the beam was shot here; absent: not shot at this place, and taken as centred. */
  readonly offset?: number;
  /** Standard uncertainty in either direction. */
  readonly offsetU?: number;
  /** The beam missed the tape here; then all of it counts as lost. */
  readonly missed?: true;
  readonly lost: number;
  /** Standard uncertainty, from that of the mark and of the diameter. */
  readonly lostU: number;
  /** At a mirror: what would be lost if the aperture were the mirror's own face, seen at 45° and so narrower by √2 one way. */
  readonly lostOnFace?: number;
  readonly lostOnFaceU?: number;
}

/** Over the corners of the bed. */
export interface LightRange {
  readonly least: number;
  readonly most: number;
  /** Standard uncertainty of either end; the greater one. */
  readonly u: number;
}

export interface Focus {
  readonly station: string;
  /** Of the beam on the lens. */
  readonly diameter: LightRange;
  /** The waist behind the lens: by diffraction alone, of a beam that the lens's own aperture does not clip. */
  readonly spot: LightRange;
  /** Both ways together, to √2 of the spot's width: two Rayleigh lengths. */
  readonly depth: LightRange;
  /** Blur by spherical aberration of the widest beam, the right way round and the wrong one (equal for equal faces). */
  readonly aberration?: {
    readonly right: number;
    readonly wrong: number;
    readonly u: { readonly right: number; readonly wrong: number };
  };
  /** The beam's lean behind the lens by the mark that is farthest off its middle, in the viewer's frame; plumb, where that is not known. */
  readonly lean?: Axes & { readonly u: Axes; readonly isPlumbKnown: boolean };
  /** Where an off-plumb beam puts the spot, from the middle. */
  readonly shift?: Axes & { readonly u: Axes };
}

export interface Eyewear {
  readonly wavelength: number;
  /** Of full power over the beam at the tube's exit, at its peak, W/m². */
  readonly irradiance: number;
  /** Standard uncertainty, from those of power and diameter; 0 where these have none. */
  readonly irradianceU: number;
  /** The one that needs the darkest eyewear first. */
  readonly exposures: readonly Exposure[];
}

export interface Exposure {
  /** s */
  readonly time: number;
  /** The most that is permissible at the eye, J/m². */
  readonly permissible: number;
  /** Where that limit stands, in words. */
  readonly source: string;
  /** Powers of ten by which eyewear must weaken the exposure to come down to the limit. */
  readonly density: number;
  /** Standard uncertainty, as of the irradiance. */
  readonly densityU: number;
}

export interface LightLack {
  /** In the machine cell: `source.beam.diameter`. */
  readonly field: string;
  readonly say: string;
}
