/**
 * Lengths in the machine's units, for people. Computations and data use mm only. Millimetres have tenths, as marks are
 * read; inches are the fractions of a rule, to 1/32, with decimal uncertainties.
 */
import type { Units } from './machine.ts';

/** The texts of lengths in one unit system; arguments are in mm. */
export interface Lengths {
  readonly unit: Units;
  /** Units per mm. */
  readonly scale: number;
  /**
   * One coordinate of a mark: `5.7` where `marks` names the unit once for both, else `7/32 in`. @param mm not negative
   */
  mark(mm: number): string;
  /** The same with the decimals of a drawing: `5.72`, `7/32 in`. @param mm not negative */
  drawn(mm: number): string;
  /** Its uncertainty: `0.25`, `0.01 in`. */
  drawnDoubt(mm: number): string;
  /** A division of a scale, without the unit: `2`, `3/32`. */
  tick(mm: number): string;
  /**
   * mm: possible distances of a scale's divisions and of grid lines, the finest first; and lengths of a scale bar, the
   * longest first.
   */
  readonly divisions: readonly number[];
  readonly grids: readonly number[];
  readonly bars: readonly number[];
  /** The same where the unit is stated elsewhere: `5.7`, `7/32`. @param mm not negative */
  bare(mm: number): string;
  /** What follows a mark whose coordinates name no unit: ` mm`; empty where each names its own. */
  readonly marks: string;
  /** As read on a rule: `5.7 mm`, `7/32 in`. */
  read(mm: number): string;
  /**
   * For a cell, read again as the same value: `1.5`, `3/32 in`; in mm if no fraction of an inch fits. @param mm not
   * negative
   */
  written(mm: number): string;
  /** The same without a zero after the point: `5 mm`, `7/32 in`. */
  short(mm: number): string;
  /** As it is written: `0.25 mm`, `3/32 in`, `0.02 in`. */
  given(mm: number): string;
  /** A typical length of that size, as a user might write it: `90 mm`, `3 17/32 in`. */
  typical(mm: number): string;
  /** The travel of a knob's rim, to half a millimetre or a sixteenth of an inch: `5.5 mm`, `3/16 in`. */
  rim(mm: number): string;
  /** A standard uncertainty: `0.3 mm`, `0.012 in`. @param round rounds tenths of a mm, or thousandths of an inch */
  doubt(mm: number, round?: (parts: number) => number): string;
  /** `1.6 ± 0.3 mm`, `1/16 ± 0.012 in` */
  measured(amount: { readonly value: number; readonly u: number }): string;
  /**
   * A length too small or too exact for a rule, with this number of decimals of a millimetre, one more in inches;
   * without the unit.
   */
  fine(mm: number, decimals: number): string;
}

const MM_PER_INCH = 25.4;

const inMm = (inch: number) => inch * MM_PER_INCH;

const millimetres: Lengths = {
  unit: 'mm',
  scale: 1,
  mark: (mm) => mm.toFixed(1),
  bare: (mm) => mm.toFixed(1),
  drawn: hundredths,
  drawnDoubt: hundredths,
  tick: hundredths,
  divisions: [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50],
  grids: [1, 5, 10],
  bars: [1000, 500, 200, 100, 50, 20, 10],
  marks: ' mm',
  read: (mm) => `${mm.toFixed(1)} mm`,
  written: String,
  short: (mm) => `${hundredths(Math.round(mm * 10) / 10)} mm`,
  given: (mm) => `${hundredths(mm)} mm`,
  typical: (mm) => `${mm} mm`,
  rim: (mm) => `${hundredths(Math.round(mm * 2) / 2)} mm`,
  doubt: (mm, round = Math.round) => `${(round(mm * 10) / 10).toFixed(1)} mm`,
  measured: ({ value, u }) => `${value.toFixed(1)} ± ${u.toFixed(1)} mm`,
  fine: (mm, decimals) => mm.toFixed(decimals),
};

const inches: Lengths = {
  unit: 'in',
  scale: 1 / MM_PER_INCH,
  mark: onRule,
  bare: thirtySeconds,
  drawn: onRule,
  drawnDoubt: (mm) => `${doubtIn(mm)} in`,
  tick: thirtySeconds,
  divisions: [1 / 32, 1 / 16, 1 / 8, 1 / 4, 1 / 2, 1, 2].map(inMm),
  grids: [1 / 16, 1 / 8, 1 / 4, 1 / 2].map(inMm),
  bars: [48, 24, 12, 6, 3, 2, 1].map(inMm),
  marks: '',
  read: onRule,
  written: (mm) =>
    fraction(mm / MM_PER_INCH) === undefined
      ? `${mm} mm`
      : `${fraction(mm / MM_PER_INCH)!.replace(/^(\d+) (\d+)\/(\d+)$/, improper)} in`,
  short: onRule,
  given: (mm) => `${fraction(mm / MM_PER_INCH) ?? String(Number((mm / MM_PER_INCH).toFixed(3)) + 0)} in`,
  typical: (mm) => (mm < MM_PER_INCH / 32 ? `${doubtIn(mm)} in` : onRule(mm)),
  rim: (mm) => `${fraction(Math.round((mm / MM_PER_INCH) * 16) / 16)!} in`,
  doubt: (mm, round) => `${doubtIn(mm, round)} in`,
  measured: ({ value, u }) => `${thirtySeconds(value)} ± ${doubtIn(u)} in`,
  fine: (mm, decimals) => (mm / MM_PER_INCH).toFixed(decimals + 1),
};

const LENGTHS: Readonly<Record<Units, Lengths>> = { mm: millimetres, in: inches };

/** The texts of lengths in these units. */
export function lengthsIn(units: Units): Lengths {
  return LENGTHS[units];
}

/** mm with at most two decimals: `1.5`, `0.25`, `12`. */
export function hundredths(value: number): string {
  return String(Math.round(value * 100) / 100 + 0);
}

/** `1 3/32` as `35/32`, because a sign in front applies to the whole value. */
function improper(_: string, whole: string, part: string, of: string): string {
  return `${Number(whole) * Number(of) + Number(part)}/${of}`;
}

function onRule(mm: number): string {
  return `${thirtySeconds(mm)} in`;
}

/** Inches, to the nearest thirty-second. */
function thirtySeconds(mm: number): string {
  return fraction(Math.round((mm / MM_PER_INCH) * 32) / 32)!;
}

/** No rule has finer divisions than `1/64`. */
const FINEST = 64;
/** Tolerance as a fraction of the finest division: the rounding error of a fraction that was typed. */
const EXACT = 1e-4;

/** `1 1/8`, `-3/32`, `2`; undefined if it is no fraction on a rule. */
function fraction(inch: number): string | undefined {
  const parts = Math.round(Math.abs(inch) * FINEST);
  if (Math.abs(Math.abs(inch) * FINEST - parts) > EXACT) return undefined;
  const [whole, rest] = [Math.floor(parts / FINEST), parts % FINEST];
  const common = rest & -rest;
  const words = [
    ...(whole > 0 || rest === 0 ? [`${whole}`] : []),
    ...(rest > 0 ? [`${rest / common}/${FINEST / common}`] : []),
  ].join(' ');
  return inch < 0 && parts > 0 ? `-${words}` : words;
}

/** Thousandths, at least one. */
function doubtIn(mm: number, round = Math.round): string {
  return String(Math.max(1, round((mm / MM_PER_INCH) * 1000)) / 1000);
}
