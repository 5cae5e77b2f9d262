/** Optical density of eyewear for this laser, as an aid: the laser safety officer and the manual decide. */
import type { Eyewear, LightLack, Machine } from '../model/index.ts';
import { irradiance, limitSource, opticalDensity, permissibleExposure } from '../optics/index.ts';
import { combinedUncertainty } from './combined-uncertainty.ts';

/** Exposure time of a stare, s: from here on the limit in W/m² is constant. */
const STARE = 10;

/**
 * The whole power at the exit, before any loss, at the peak of the beam: the disc of 1/e diameter, which is 1/√2 of the
 * 1/e² one. Not averaged over the eye's limiting aperture, which would only reduce it. Wavelength and time count as
 * exact.
 */
export function eyewearOf({ source: { wavelength, power, beam }, pulse }: Machine): Eyewear | undefined {
  if (power === undefined || !beam) return undefined;
  const given = [power, beam.diameter];
  const peak = (watts: number, diameter: number) => irradiance(watts, diameter / Math.SQRT2);
  const times = [...(pulse?.time === undefined ? [] : [pulse.time]), STARE];
  const exposed = times.flatMap((time) => {
    const permissible = permissibleExposure(wavelength, time);
    if (permissible === undefined) return [];
    const density = (watts: number, diameter: number) => opticalDensity(peak(watts, diameter) * time, permissible);
    return [
      {
        time,
        permissible,
        source: limitSource(time),
        density: density(power.value, beam.diameter.value),
        densityU: combinedUncertainty(density, given),
      },
    ];
  });
  // The highest optical density first: it decides.
  const exposures = exposed.toSorted((one, other) => other.density - one.density);
  return exposures.length === 0
    ? undefined
    : {
        wavelength,
        irradiance: peak(power.value, beam.diameter.value),
        irradianceU: combinedUncertainty(peak, given),
        exposures,
      };
}

export function eyewearLacks({ source: { wavelength, power, beam } }: Machine): LightLack[] {
  const unknown = (field: string, because: string): LightLack[] => [
    { field, say: `The optical density of eyewear cannot be computed: ${because}` },
  ];
  if (power === undefined)
    return unknown('source.power', 'the full power of the tube is missing. Add it to `source`: `power: 80 W`.');
  if (!beam) return unknown('source.beam.diameter', 'the diameter of the beam is missing.');
  if (permissibleExposure(wavelength, STARE) === undefined)
    return unknown('source.wavelength', 'limits are known here from 2.6 µm to 1 mm only.');
  return [];
}
