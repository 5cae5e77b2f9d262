/** The beam from tube to work: its width, clipping loss at apertures, and the spot. mm, rad, fractions. */
export { lightOf } from './light.ts';
export { diameterComponents, diameterOn } from './diameter-on.ts';
export { growthsIn, type Growth } from './growth.ts';
export { farthest, isHit } from './marks.ts';
export { transmission, transmissionAtSlant } from './clipping.ts';
