/**
 * A number with its standard uncertainty, in digits: the uncertainty to two significant digits, the value to the same
 * decimal place (JCGM 100:2008, 7.2.6). Without an uncertainty a value is printed as written if it ends, else to six
 * digits.
 */
const DIGITS = 2;
/** Digits of a decimal that ends. */
const WRITTEN = 10;
/** Digits of one that does not. */
const CUT = 6;
/** Powers of ten beyond which a number has an exponent, and decimals beyond which it has one. */
const LARGEST = 15;
const SMALLEST = -6;
const DECIMALS = 12;

/** @param u 0: the value is exact, and printed like one without uncertainty */
export function valueInDigits(value: number, u?: number): string {
  if (u === undefined) return alone(value);
  if (u === 0) return `${alone(value)} ± 0`;
  const last = -decimalsFor(u);
  return `${toPlace(value, last)} ± ${toPlace(u, last)}`;
}

/** Decimals at which an uncertainty has two significant digits; negative: it is rounded to tens or more. */
export function decimalsFor(u: number): number {
  return DIGITS - 1 - exponentOf(Number(u.toPrecision(DIGITS)));
}

function alone(value: number): string {
  const written = Number(value.toPrecision(WRITTEN));
  if (Number(value.toPrecision(WRITTEN + 2)) !== written)
    return toPlace(value, Math.min(0, exponentOf(value) - (CUT - 1)));
  const isReadable = value === 0 || (exponentOf(value) <= LARGEST && exponentOf(value) >= SMALLEST);
  return isReadable ? String(written + 0) : written.toExponential();
}

/** Rounded to a multiple of 10^place, with trailing zeros. */
function toPlace(value: number, place: number): string {
  const exponent = value === 0 ? place : exponentOf(value);
  if (exponent > LARGEST || place < -DECIMALS) return value.toExponential(Math.min(20, Math.max(0, exponent - place)));
  if (place > 0) return String(Math.round(value / 10 ** place) * 10 ** place + 0);
  const text = value.toFixed(-place);
  return Number(text) === 0 ? text.replace('-', '') : text;
}

/** The exponent of the first digit: 0 for 1 … 9.99. */
function exponentOf(value: number): number {
  return Number(value.toExponential().split('e')[1]);
}
