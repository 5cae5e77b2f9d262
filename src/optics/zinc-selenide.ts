/**
 * The refractive index of zinc selenide.
 *
 * Sellmeier's formula with the coefficients of Connolly, diBenedetto and Donadio, Proc. SPIE 181, 141 (1979), as in the
 * refractiveindex.info database (ZnSe/Connolly, CC0). For bulk material at room temperature; a deposited film has less.
 */
const TERMS = [
  [4.45813734, 0.200859853],
  [0.467216334, 0.391371166],
  [2.8956629, 47.1362108],
] as const;
const SHORTEST = 0.54e-3;
const LONGEST = 18.2e-3;

/** @param wavelength mm. Undefined outside 0.54 to 18.2 µm, where the formula was fitted. */
export function zincSelenideIndex(wavelength: number): number | undefined {
  if (!(wavelength >= SHORTEST && wavelength <= LONGEST)) return undefined;
  const square = (wavelength * 1000) ** 2;
  return Math.sqrt(TERMS.reduce((sum, [strength, pole]) => sum + (strength * square) / (square - pole ** 2), 1));
}
