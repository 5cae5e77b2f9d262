/** The beam from tube to work, by the machine's figures and the marks that still hold. */
import type { Evaluation, Light, LightLack, Machine } from '../model/index.ts';
import { beamOf, type Beam, type BeamProblem } from '../optics/index.ts';
import { atCorner } from './at-corner.ts';
import { cornersOf } from './corners.ts';
import { eyewearLacks, eyewearOf } from './eyewear.ts';
import { focusOf, lensLacks } from './focus-of.ts';

const PROBLEMS: Readonly<Record<BeamProblem, LightLack>> = {
  'no diameter': { field: 'source.beam.diameter', say: 'Write the beam’s diameter at the tube’s exit and its divergence (`beam: {diameter: 6 mm, divergence: 3 mrad}`), from the tube’s data sheet, to be told its width.' },
  'no spread': { field: 'source.beam.divergence', say: 'Write the beam’s `divergence` (full angle) or its `M2`, from the tube’s data sheet, to be told its width.' },
  contradiction: { field: 'source.beam', say: 'No beam has this diameter, divergence and M2 together: a beam spreads by 4·M2·wavelength/(π·diameter) or more. Is the divergence the full angle?' },
};

/** @param evaluation its stations are enough; without marks every beam is taken as centred, which the answer shows */
export function lightOf(machine: Machine, evaluation: Pick<Evaluation, 'stations'>): Light {
  const beam = beamOf(machine.source);
  const eyewear = eyewearOf(machine);
  const shared = { ...(eyewear && { eyewear }) };
  const others = [...lensLacks(machine, machine.source), ...eyewearLacks(machine)];
  if (typeof beam === 'string') return { corners: [], ...shared, lacks: [PROBLEMS[beam], ...others] };
  const corners = cornersOf(machine).map((corner) => atCorner(machine, beam, evaluation.stations, corner));
  const focus = focusOf(machine, beam, corners, evaluation);
  return { beam: shown(beam), corners, ...(focus && { focus }), ...shared, lacks: others };
}

function shown({ waist, at, divergence, ratio, assumed }: Beam): Light['beam'] & object {
  return { waist, at, divergence, M2: ratio, ...(assumed && { assumed }) };
}
