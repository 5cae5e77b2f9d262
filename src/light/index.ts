/** What the beam does on its way from tube to work: its width, what apertures take of it, the spot. mm, rad, shares. */
export { lightOf } from './light.ts';
export { diameterComponents, diameterOn } from './diameter-on.ts';
export { growthsIn, type Growth } from './growth.ts';
export { farthest, isHit } from './marks.ts';
export { transmission, transmissionAtSlant } from './clipping.ts';
