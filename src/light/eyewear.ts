/** How dark eyewear must be for this laser, as an aid: the laser safety officer and the manual decide. */
import type { Eyewear, LightLack, Machine } from '../model/index.ts';
import { irradiance, opticalDensity, permissibleExposure } from '../optics/index.ts';

/** A stare, s: from here on the limit in W/m² no longer changes. */
const STARE = 10;

/**
 * The whole power at the exit, where nothing has been lost yet, at the peak of the beam: the disc of 1/e diameter, which is
 * 1/√2 of the 1/e² one. Not averaged over the eye's limiting aperture, which would only be less.
 */
export function eyewearOf({ source: { wavelength, power, beam }, pulse }: Machine): Eyewear | undefined {
  if (power === undefined || !beam) return undefined;
  const peak = irradiance(power, beam.diameter / Math.SQRT2);
  const times = [...(pulse?.time === undefined ? [] : [pulse.time]), STARE];
  const exposures = times.flatMap((time) => {
    const permissible = permissibleExposure(wavelength, time);
    return permissible === undefined ? [] : [{ time, density: opticalDensity(peak * time, permissible) }];
  });
  return exposures.length === 0 ? undefined : { irradiance: peak, exposures };
}

export function eyewearLacks({ source: { power } }: Machine): LightLack[] {
  return power === undefined ? [{ field: 'source.power', say: 'Write the tube’s full power (`source: {power: 80 W}`) to be told how dark eyewear must be.' }] : [];
}
