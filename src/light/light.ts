/** The beam from tube to work, from the machine's values and the fresh marks. */
import type { Evaluation, Light, LightBeam, LightLack, Machine } from '../model/index.ts';
import type { BeamProblem } from '../optics/index.ts';
import { atCorner } from './at-corner.ts';
import { cornersOf } from './corners.ts';
import { eyewearLacks, eyewearOf } from './eyewear.ts';
import { focusOf, lensLacks, spotLacks } from './focus-of.ts';
import { combinedUncertainty } from './combined-uncertainty.ts';
import { tubeOf, type Tube } from './tube.ts';

const PROBLEMS: Readonly<Record<BeamProblem, LightLack>> = {
  'no diameter': {
    field: 'source.beam.diameter',
    say: 'The beam cannot be computed: its diameter at the tube’s exit is missing. Add the diameter and the divergence from the data sheet of the tube to `source`: `beam: {diameter: 6 mm, divergence: 3 mrad}`.',
  },
  'no spread': {
    field: 'source.beam.divergence',
    say: 'The beam cannot be computed: its divergence and its M² (`M2`) are missing. Add the `divergence` (full angle) from the data sheet of the tube.',
  },
  contradiction: {
    field: 'source.beam',
    say: 'The beam cannot be computed: its values are physically impossible together. The divergence is at least M² times 4·wavelength/(π·diameter), and M² is at least 1. Is the divergence the full angle?',
  },
};

const BEYOND: LightLack = {
  field: 'source',
  say: 'The beam cannot be computed: a value of the machine is too large or too small.',
};

/**
 * @param evaluation only its stations are used; without marks the beam counts as centred at every aperture, which the
 * result shows
 */
export function lightOf(machine: Machine, evaluation: Pick<Evaluation, 'stations'>): Light {
  const light = computed(machine, evaluation);
  return isFiniteThroughout(light) ? light : { corners: [], lacks: [BEYOND] };
}

function computed(machine: Machine, evaluation: Pick<Evaluation, 'stations'>): Light {
  const tube = tubeOf(machine.source);
  const eyewear = eyewearOf(machine);
  const lacks = [...lensLacks(machine, machine.source), ...eyewearLacks(machine)];
  if (typeof tube === 'string') return { corners: [], ...(eyewear && { eyewear }), lacks: [PROBLEMS[tube], ...lacks] };
  const corners = cornersOf(machine);
  const focus = focusOf(machine, tube, corners, evaluation);
  return {
    beam: shown(tube),
    corners: corners.map((corner) => atCorner(machine, tube, evaluation.stations, corner)),
    ...(focus && { focus }),
    ...(eyewear && { eyewear }),
    lacks: [...lacks, ...spotLacks(machine, tube, corners)],
  };
}

function shown({ beam: { waist, at, divergence, M2, assumed }, figures, beamIf }: Tube): LightBeam {
  const uncertainty = (of: 'waist' | 'at' | 'divergence' | 'M2') =>
    combinedUncertainty((...values) => beamIf(...values)[of], figures);
  return {
    waist,
    at,
    divergence,
    M2,
    u: {
      waist: uncertainty('waist'),
      at: uncertainty('at'),
      divergence: uncertainty('divergence'),
      M2: uncertainty('M2'),
    },
    ...(assumed && { assumed }),
  };
}

function isFiniteThroughout(value: unknown): boolean {
  if (typeof value === 'number') return Number.isFinite(value);
  return typeof value !== 'object' || value === null || Object.values(value).every(isFiniteThroughout);
}
