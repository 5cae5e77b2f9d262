/** The safety cautions, with the wavelength that the eyewear must be rated for. */
import { briefCautions, cautions } from '../../shared/cautions.ts';

export { FIRE_REMINDER } from '../../shared/cautions.ts';

/** mm: the usual CO2 laser line, where a workbook gives no wavelength. */
export const CO2_WAVELENGTH = 0.0106;

/** Sentences of the cautions, by subject. */
export type Cautions = Readonly<Record<keyof typeof cautions, readonly string[]>>;

/** In full, or in the shortest words that leave nothing out, ASCII. */
export type CautionForm = 'full' | 'brief';

const FORMS = { full: cautions, brief: briefCautions } as const;

/** @param wavelength mm */
export function cautionsAt(wavelength: number = CO2_WAVELENGTH, form: CautionForm = 'full'): Cautions {
  const written = inMicrometres(wavelength);
  const eyewear = form === 'full' ? written : written.replace('µ', 'u');
  const filled = ([name, lines]: [string, readonly string[]]) => [
    name,
    lines.map((line) => line.replace('{wavelength}', eyewear)),
  ];
  return Object.fromEntries(Object.entries(FORMS[form]).map(filled)) as Cautions;
}

/** `10.6 µm` */
export function inMicrometres(wavelength: number): string {
  return `${Number((wavelength * 1000).toPrecision(4))} µm`;
}
