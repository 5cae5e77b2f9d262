/** The safety cautions, with the wavelength that the eyewear must be rated for. */
import { cautions } from '../../shared/cautions.ts';

/** mm: the usual CO2 laser line, where a workbook gives no wavelength. */
export const CO2_WAVELENGTH = 0.0106;

/** Sentences of the cautions, by subject. */
export type Cautions = Readonly<Record<keyof typeof cautions, readonly string[]>>;

/** @param wavelength mm */
export function cautionsAt(wavelength: number = CO2_WAVELENGTH): Cautions {
  const filled = ([name, lines]: [string, readonly string[]]) => [
    name,
    lines.map((line) => line.replace('{wavelength}', inMicrometres(wavelength))),
  ];
  return Object.fromEntries(Object.entries(cautions).map(filled)) as Cautions;
}

/** `10.6 µm` */
export function inMicrometres(wavelength: number): string {
  return `${Number((wavelength * 1000).toPrecision(4))} µm`;
}
