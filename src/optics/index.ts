/**
 * The optics of a machine with flying mirrors: exact rays, mounts and threads. Machine frame x right, y rear, z up; mm.
 */
export { add, cross, dot, length, reflect, scale, subtract, type Vector } from './vector.ts';
export {
  DIRECTIONS,
  directionVector,
  nearestDirection,
  opposite,
  viewer,
  type Direction,
  type Viewer,
} from '../model/index.ts';
export { isLeftHanded, nutFlats, threadNames, threadPitch } from './threads.ts';
export {
  addPose,
  placesProblem,
  scalePose,
  seenFromBehind,
  turnEffect,
  type Mount,
  type PlacesProblem,
  type Pose,
  type Screw,
  type Tip,
} from './mount.ts';
export {
  arriving,
  checkLayout,
  legLength,
  plate,
  position,
  type Carriages,
  type Element,
  type Layout,
  type LayoutProblem,
  type Place,
  type Plate,
} from './layout.ts';
export {
  nominal,
  tubeEndShift,
  tubeShift,
  type Departure,
  type Holders,
  type Setting,
  type Tube,
} from './setting.ts';
export { hit, trace, type Hit, type Ray } from './trace.ts';
export { differentiate, type Differentiated, type Gradient } from './gradient.ts';
export {
  beamOf,
  diameterAt,
  leastDivergence,
  missedDivergence,
  maxM2,
  rayleighLength,
  throughLens,
  type Beam,
  type BeamFigures,
  type BeamProblem,
} from './beam.ts';
export { aberrationSpot, cutLean, spotShift, type ShapeFactor } from './focus.ts';
export { zincSelenideIndex } from './zinc-selenide.ts';
export { irradiance, limitSource, opticalDensity, permissibleExposure } from './exposure.ts';
