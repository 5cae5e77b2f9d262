/** The safety cautions, with the wavelength that the eyewear must be rated for. */
import { briefCautions, cautions } from '../../shared/cautions.ts';

/** mm: the usual CO2 laser line, where a workbook gives no wavelength. */
export const CO2_WAVELENGTH = 0.0106;

/** Sentences of the cautions, by subject. */
export type Cautions = Readonly<Record<keyof typeof cautions, readonly string[]>>;

/** In full; in the shortest words that leave nothing out, ASCII; or as a reminder, ASCII. */
export type CautionForm = 'full' | keyof typeof briefCautions;

/** @param wavelength mm */
export function cautionsAt(wavelength: number = CO2_WAVELENGTH, form: CautionForm = 'full'): Cautions {
  const texts: Readonly<Record<string, string | readonly string[]>> = form === 'full' ? cautions : briefCautions[form];
  const eyewear = form === 'full' ? inMicrometres(wavelength) : inMicrometres(wavelength).replace('µ', 'u');
  const filled = ([name, text]: [string, string | readonly string[]]) => [
    name,
    [text]
      .flat()
      .filter((line) => line !== '')
      .map((line) => line.replace('{wavelength}', eyewear)),
  ];
  return Object.fromEntries(Object.entries(texts).map(filled)) as Cautions;
}

/** `10.6 µm` */
export function inMicrometres(wavelength: number): string {
  return `${Number((wavelength * 1000).toPrecision(4))} µm`;
}
