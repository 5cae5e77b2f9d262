/** The beam from the tube's values, and from values that deviate by their uncertainty. */
import type { Quantity, Source } from '../model/index.ts';
import {
  beamOf,
  leastDivergence,
  missedDivergence,
  maxM2,
  type Beam,
  type BeamFigures,
  type BeamProblem,
} from '../optics/index.ts';

export interface Tube {
  readonly beam: Beam;
  /** The written values of diameter at the exit, divergence and M², in this order. */
  readonly figures: readonly (Quantity & { readonly name: keyof Figures })[];
  /** The beam with these values; if no beam has them, that with the nearest possible ones. */
  beamIf(...figures: readonly number[]): Beam;
}

export function tubeOf({ wavelength, beam: written }: Source): Tube | BeamProblem {
  const given = (['diameter', 'divergence', 'M2'] as const).flatMap((name) =>
    written?.[name] ? [{ name, ...written[name] }] : [],
  );
  const read = (values: readonly number[]) => ({
    wavelength,
    ...(written && {
      beam: named(
        given.map(({ name }) => name),
        values,
      ),
    }),
  });
  const beam = beamOf(fitting(read(given.map(({ value }) => value)), written));
  if (typeof beam === 'string') return beam;
  const beamIf = (...values: readonly number[]) => {
    const candidate = beamOf(nearest(read(values)));
    return typeof candidate === 'string' ? beam : candidate;
  };
  return { beam, figures: given, beamIf };
}

/** Values that no beam has, but that agree with a beam within their ±, are replaced by the nearest possible ones. */
function fitting(figures: BeamFigures, written: Source['beam']): BeamFigures {
  const isOff =
    written?.divergence !== undefined &&
    written.divergence.value < leastDivergence(figures.wavelength, written.diameter.value, written.M2?.value);
  return isOff && missedDivergence(figures.wavelength, written) === undefined ? nearest(figures) : figures;
}

type Figures = NonNullable<BeamFigures['beam']>;

function named(names: readonly (keyof Figures)[], values: readonly number[]): Figures {
  return Object.fromEntries(names.map((name, k) => [name, values[k]])) as unknown as Figures;
}

/** The nearest possible values: M² is at least 1, and a beam of this diameter has a least divergence. */
function nearest({ wavelength, beam }: BeamFigures): BeamFigures {
  if (!beam) return { wavelength };
  const divergence =
    beam.divergence === undefined ? undefined : Math.max(beam.divergence, leastDivergence(wavelength, beam.diameter));
  const most = divergence === undefined ? Infinity : maxM2(wavelength, beam.diameter, divergence);
  const M2 = beam.M2 === undefined ? undefined : Math.min(Math.max(beam.M2, 1), most);
  return {
    wavelength,
    beam: { diameter: beam.diameter, ...(divergence !== undefined && { divergence }), ...(M2 !== undefined && { M2 }) },
  };
}
