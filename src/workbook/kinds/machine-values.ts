/** The machine cell's values by dotted names, for arithmetic: mm, rad, W. */
import type { Machine } from '../../model/index.ts';
import { ANGLE, LENGTH, POWER, type Dimension, type Dimensioned } from '../quantities/units.ts';

export function machineValues({ source, path, mounts }: Machine): Map<string, Dimensioned> {
  const values = new Map<string, Dimensioned>();
  const put = (name: string, value: number | undefined, dimension: Dimension) => {
    if (value !== undefined) values.set(name, { value, dimension });
  };
  put('source.wavelength', source.wavelength, LENGTH);
  put('source.power', source.power?.value, POWER);
  put('beam.diameter', source.beam?.diameter.value, LENGTH);
  put('beam.divergence', source.beam?.divergence?.value, ANGLE);
  for (const { name, leg, stops = {}, aperture, inset, focal } of path) {
    put(`${name}.leg`, leg?.value, LENGTH);
    for (const [stop, { value }] of Object.entries(stops)) put(`${name}.${stop}`, value, LENGTH);
    put(`${name}.aperture`, aperture, LENGTH);
    put(`${name}.inset`, inset, LENGTH);
    put(`${name}.focal`, focal?.value, LENGTH);
  }
  for (const [name, { screws, pitch, knob }] of Object.entries(mounts)) {
    put(`${name}.pitch`, pitch, LENGTH);
    put(`${name}.knob`, knob, LENGTH);
    for (const [screw, { right, up }] of Object.entries(screws)) {
      put(`${name}.${screw}.right`, right?.value, LENGTH);
      put(`${name}.${screw}.up`, up?.value, LENGTH);
    }
  }
  return values;
}
