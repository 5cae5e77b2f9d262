/** The machine cell's values by dotted names, for arithmetic, each with its ± if given: mm, rad, W. */
import type { Machine, Quantity } from '../../model/index.ts';
import { ANGLE, LENGTH, POWER, type Dimension } from '../quantities/units.ts';
import type { Known } from './compute-work.ts';

/** The values of a machine, by dotted name. */
export function machineValues({ source, path, mounts }: Machine): Map<string, Known> {
  const values = new Map<string, Known>();
  const put = (name: string, quantity: Quantity | number | undefined, dimension: Dimension) => {
    const { value, u } = typeof quantity === 'object' ? quantity : { value: quantity };
    if (value !== undefined) values.set(name, { value, dimension, ...(u !== undefined && { u }) });
  };
  put('source.wavelength', source.wavelength, LENGTH);
  put('source.power', source.power, POWER);
  put('beam.diameter', source.beam?.diameter, LENGTH);
  put('beam.divergence', source.beam?.divergence, ANGLE);
  for (const { name, leg, stops = {}, aperture, inset, focal } of path) {
    put(`${name}.leg`, leg, LENGTH);
    for (const [stop, length] of Object.entries(stops)) put(`${name}.${stop}`, length, LENGTH);
    put(`${name}.aperture`, aperture, LENGTH);
    put(`${name}.inset`, inset, LENGTH);
    put(`${name}.focal`, focal, LENGTH);
  }
  for (const [name, { screws, pitch, knob }] of Object.entries(mounts)) {
    put(`${name}.pitch`, pitch, LENGTH);
    put(`${name}.knob`, knob, LENGTH);
    for (const [screw, { right, up }] of Object.entries(screws)) {
      put(`${name}.${screw}.right`, right, LENGTH);
      put(`${name}.${screw}.up`, up, LENGTH);
    }
  }
  return values;
}
