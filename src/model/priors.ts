/**
 * Prior standard deviations, before the first mark. Each can be replaced in the machine cell (`priors: {mirrorTilt: 5
 * mrad}`). None has a published source: they are common practice.
 */
export interface Prior {
  readonly dimension: 'length' | 'angle' | 'ratio' | 'turns';
  /** mm, rad, 1 or turns */
  readonly value: number;
  readonly reason: string;
}

/** The default priors by name. */
export const PRIORS = {
  tubeOffset: {
    dimension: 'length',
    value: 3,
    reason: 'Tubes are set by eye in open holders; a few millimetres off is usual.',
  },
  tubeAngle: { dimension: 'angle', value: 0.005, reason: '5 mm over a metre of tube between its holders.' },
  mirrorPiston: {
    dimension: 'length',
    value: 1,
    reason: 'Blocks and mounts are set by eye; a mirror that was taken out returns just as far off.',
  },
  mirrorTilt: {
    dimension: 'angle',
    value: 0.01,
    reason: 'A mount with its screws somewhere in the middle of their travel.',
  },
  racking: {
    dimension: 'angle',
    value: 0.002,
    reason:
      'A gantry between two belts or rails: one side lags behind the other by a millimetre or two from one end of its travel to the other.',
  },
  railBend: {
    dimension: 'length',
    value: 1,
    reason:
      'A rail on a light frame sags or bows by some tenths of a millimetre; one that was leaned on, by millimetres. Common practice, no source.',
  },
  carriageTurn: {
    dimension: 'angle',
    value: 0.0003,
    reason:
      'A rail lets its carriage turn by a few tenths of a millimetre over a metre, from one end of its travel to the other.',
  },
  apertureOffset: {
    dimension: 'length',
    value: 1,
    reason: 'Apertures are drilled for the housing, not for the beam; heights are shimmed.',
  },
  turnReading: {
    dimension: 'turns',
    value: 0.03,
    reason:
      'One whole turn read by eye against the knob; the variance grows with the turn, so that splitting it changes nothing.',
  },
  backlash: { dimension: 'turns', value: 0.02, reason: 'A screw whose sense is reversed first takes up its play.' },
  shiftReading: { dimension: 'length', value: 0.25, reason: 'A block or tube slid by hand along a scale.' },
  shiftAngle: { dimension: 'angle', value: 0.0005, reason: 'A tube or block slid by hand also turns a little.' },
  screwTilt: {
    dimension: 'angle',
    value: 0.017,
    reason:
      'Effect of one turn of a screw in an unknown place on either slope: M4 over a lever of about 30 mm, in any direction. It is the same on all mirrors in the same mount, except for its `doubt`.',
  },
  driftTilt: {
    dimension: 'angle',
    value: 0.00002,
    reason:
      'Drift of a mirror or the tube in a day without adjustment; it grows with the square root of the days. Machines that are checked once a quarter drift little more than tape can show. The visits of the log replace this guess.',
  },
  powerReading: {
    dimension: 'ratio',
    value: 0.02,
    reason:
      'One reading of a power meter against the next: the needle and the tube flutter by some per cent. Repeats average it, and show how large it is.',
  },
  powerPlacing: {
    dimension: 'ratio',
    value: 0.02,
    reason: 'The meter held there again, the tube a few minutes warmer. Repeats do not average it.',
  },
  lockTilt: { dimension: 'angle', value: 0.0005, reason: 'Tightening a lock nut moves the mirror.' },
} as const satisfies Record<string, Prior>;

/** The name of a prior. */
export type PriorName = keyof typeof PRIORS;
