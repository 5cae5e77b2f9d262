/** What the beam does on its way from the tube to the work. Lengths mm, angles rad, shares 0 … 1, diameters 1/e². */
import type { Axes } from './evaluation.ts';

export interface Light {
  /** Absent where the machine does not say enough; `lacks` tells what. */
  readonly beam?: LightBeam;
  /** One for each way the carriages can stand at the ends of their travels. */
  readonly corners: readonly LightCorner[];
  readonly focus?: Focus;
  readonly eyewear?: Eyewear;
  /** What to write in the machine cell to be told more. */
  readonly lacks: readonly LightLack[];
}

export interface LightBeam {
  /** Diameter of the waist, and where it stands from the tube's exit (negative: inside the tube). */
  readonly waist: number;
  readonly at: number;
  /** Full angle. */
  readonly divergence: number;
  readonly M2: number;
  readonly assumed?: 'waist at the exit';
}

export interface LightCorner {
  /** By name of the element that a carriage carries: the name of its stop. */
  readonly with: Readonly<Record<string, string>>;
  readonly stations: readonly LightAtStation[];
  /** Share of the tube's power that all the apertures together stop, each taken to meet a whole Gaussian beam: a little too much where one clips after another. */
  readonly lost: number;
}

export interface LightAtStation {
  readonly name: string;
  /** From the tube's exit along the beam. */
  readonly along: number;
  readonly diameter: number;
  /** Standard uncertainty of the diameter, from that of the legs. */
  readonly u: number;
  /** How far off the middle the beam was shot here; absent: not shot at this place, and taken as centred. */
  readonly offset?: number;
  readonly lost: number;
  /** To first order, from the mark's and the diameter's. */
  readonly lostU: number;
  /** At a mirror: what would be lost if the aperture were the mirror's own face, seen at 45° and so narrower by √2 one way. */
  readonly lostOnFace?: number;
}

export interface Focus {
  readonly station: string;
  /** The beam on the lens, at the corner where it is widest, and at the one where it is narrowest. */
  readonly diameter: { readonly least: number; readonly most: number };
  /** Diffraction alone, at the widest and at the narrowest beam. */
  readonly spot: { readonly least: number; readonly most: number };
  /** Of the smallest spot, both ways together, to √2 of its width. */
  readonly depth: number;
  /** Blur by spherical aberration of the widest beam, the right way round and the wrong one (equal for equal faces). */
  readonly aberration?: { readonly right: number; readonly wrong: number };
  /** The beam's lean below the lens where marks on it were shot: the worst, in the viewer's frame. */
  readonly lean?: Axes & { readonly u: number };
  /** Where an off-plumb beam puts the spot, from the middle. */
  readonly shift?: Axes & { readonly u: Axes };
}

export interface Eyewear {
  /** Of full power over the beam at the tube's exit, at its peak, W/m². */
  readonly irradiance: number;
  /** Each with the optical density that brings the exposure down to the limit. */
  readonly exposures: readonly { readonly time: number; readonly density: number }[];
}

export interface LightLack {
  /** As written in the machine cell: `source.beam.diameter`. */
  readonly field: string;
  readonly say: string;
}
