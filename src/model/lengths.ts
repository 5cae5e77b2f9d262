/**
 * Lengths as a person reads them, in the units of the machine. Inside, and in what programs read, lengths are mm always.
 * Millimetres are tenths, as marks are read; inches are the fractions of a rule, to 1/32, and their uncertainties decimal.
 */
import type { Units } from './machine.ts';

export interface Lengths {
  readonly unit: Units;
  /** What a mm counts in it. */
  readonly scale: number;
  /** One part of a mark: `5.7` where `marks` names the unit once for both, `7/32 in` else. @param mm not negative */
  mark(mm: number): string;
  /** The same with as many decimals as a drawing shows: `5.72`, `7/32 in`. @param mm not negative */
  drawn(mm: number): string;
  /** Of its uncertainty: `0.25`, `0.01 in`. */
  drawnDoubt(mm: number): string;
  /** A scale's division, without its unit: `2`, `3/32`. */
  tick(mm: number): string;
  /** mm: what a scale's divisions can stand apart, and a grid's lines, the finest first; and what a scale bar can stand for, the longest first. */
  readonly divisions: readonly number[];
  readonly grids: readonly number[];
  readonly bars: readonly number[];
  /** The same where the unit stands elsewhere for all: `5.7`, `7/32`. @param mm not negative */
  bare(mm: number): string;
  /** What follows a mark whose parts name no unit: ` mm`; empty where each part names its own. */
  readonly marks: string;
  /** As a rule reads it: `5.7 mm`, `7/32 in`. */
  read(mm: number): string;
  /** For a cell, to be read again as it was: `1.5`, `3/32 in`; in millimetres what no rule in inches has. @param mm not negative */
  written(mm: number): string;
  /** The same without a nought behind the point: `5 mm`, `7/32 in`. */
  brief(mm: number): string;
  /** As it is written: `0.25 mm`, `3/32 in`, `0.02 in`. */
  given(mm: number): string;
  /** A length of about that size, as somebody might write it: `90 mm`, `3 17/32 in`. */
  typical(mm: number): string;
  /** A knob's travel, to half a millimetre or a sixteenth of an inch: `5.5 mm`, `3/16 in`. */
  rim(mm: number): string;
  /** A standard uncertainty: `0.3 mm`, `0.012 in`. @param round of tenths of a mm, of thousandths of an inch */
  doubt(mm: number, round?: (parts: number) => number): string;
  /** `1.6 ± 0.3 mm`, `1/16 ± 0.012 in` */
  measured(amount: { readonly value: number; readonly u: number }): string;
  /** What is too small or too exact for a rule, with so many decimals of a millimetre and one more of an inch; without the unit. */
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
  brief: (mm) => `${hundredths(Math.round(mm * 10) / 10)} mm`,
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
  brief: onRule,
  given: (mm) => `${fraction(mm / MM_PER_INCH) ?? String(Number((mm / MM_PER_INCH).toFixed(3)) + 0)} in`,
  typical: (mm) => (mm < MM_PER_INCH / 32 ? `${doubtIn(mm)} in` : onRule(mm)),
  rim: (mm) => `${fraction(Math.round((mm / MM_PER_INCH) * 16) / 16)!} in`,
  doubt: (mm, round) => `${doubtIn(mm, round)} in`,
  measured: ({ value, u }) => `${thirtySeconds(value)} ± ${doubtIn(u)} in`,
  fine: (mm, decimals) => (mm / MM_PER_INCH).toFixed(decimals + 1),
};

const LENGTHS: Readonly<Record<Units, Lengths>> = { mm: millimetres, in: inches };

export function lengthsIn(units: Units): Lengths {
  return LENGTHS[units];
}

/** mm with as many decimals as a hand can use: `1.5`, `0.25`, `12`. */
export function hundredths(value: number): string {
  return String(Math.round(value * 100) / 100 + 0);
}

/** `1 3/32` is `35/32`: a sign before it is of the whole of it. */
function improper(_: string, whole: string, part: string, of: string): string {
  return `${Number(whole) * Number(of) + Number(part)}/${of}`;
}

function onRule(mm: number): string {
  return `${thirtySeconds(mm)} in`;
}

/** Inches, to the nearest line of a rule in thirty-seconds. */
function thirtySeconds(mm: number): string {
  return fraction(Math.round((mm / MM_PER_INCH) * 32) / 32)!;
}

/** Finer ones no rule has: `3/64`. */
const FINEST = 64;
/** A share of the finest: what arithmetic leaves of a fraction that somebody wrote. */
const EXACT = 1e-4;

/** `1 1/8`, `-3/32`, `2`; undefined for what is no fraction that a rule has. */
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

/** Thousandths, and never none. */
function doubtIn(mm: number, round = Math.round): string {
  return String(Math.max(1, round((mm / MM_PER_INCH) * 1000)) / 1000);
}
