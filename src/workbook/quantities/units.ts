/**
 * The units that are read, and their algebra. Base units are mm, rad, W and s. A radian counts as a unit of its own
 * in sums (1 mrad + 1 is a mistake) but vanishes beside any other (3 mrad × 600 mm is 1.8 mm), as people reckon.
 */
import type { Components } from './components.ts';

/** Exponents of mm, rad, W and s. */
export type Dimension = readonly [length: number, angle: number, power: number, time: number];

/** A number in base units (mm, rad, W, s) and its dimension; where it rests on uncertain inputs, what each contributes. */
export interface Dimensioned {
  readonly value: number;
  readonly dimension: Dimension;
  readonly components?: Components | undefined;
}

export interface Unit {
  readonly name: string;
  /** one of it in base units */
  readonly factor: number;
  readonly dimension: Dimension;
}

export const NUMBER: Dimension = [0, 0, 0, 0];
export const LENGTH: Dimension = [1, 0, 0, 0];
export const ANGLE: Dimension = [0, 1, 0, 0];
export const POWER: Dimension = [0, 0, 1, 0];
export const TIME: Dimension = [0, 0, 0, 1];

const MM_PER_INCH = 25.4;
export const RADIANS_PER_TURN = 2 * Math.PI;

const TABLE: readonly (readonly [dimension: Dimension, factor: number, ...names: string[]])[] = [
  [LENGTH, 1, 'mm'],
  [LENGTH, 10, 'cm'],
  [LENGTH, 1000, 'm'],
  [LENGTH, 1e-3, 'um', 'µm', 'μm'],
  [LENGTH, 1e-6, 'nm'],
  [LENGTH, MM_PER_INCH, 'in'],
  [ANGLE, Math.PI / 180, 'deg', '°'],
  [ANGLE, 1e-3, 'mrad'],
  [ANGLE, 1, 'rad'],
  [ANGLE, Math.PI / 180 / 60, 'arcmin'],
  [ANGLE, RADIANS_PER_TURN, 'turn', 'turns'],
  [ANGLE, RADIANS_PER_TURN / 6, 'flat', 'flats'],
  [POWER, 1, 'W'],
  [POWER, 1e-3, 'mW'],
  [POWER, 1e3, 'kW'],
  [TIME, 1, 's'],
  [TIME, 1e-3, 'ms'],
  [TIME, 60, 'min'],
  [TIME, 3600, 'h'],
  [NUMBER, 0.01, '%'],
];

const UNITS: ReadonlyMap<string, Unit> = new Map(
  TABLE.flatMap(([dimension, factor, ...names]) => names.map((name) => [name, { name, factor, dimension }] as const)),
);

/** What people write for a unit, in small letters → what the format reads. */
const MEANT: ReadonlyMap<string, string> = new Map(
  Object.entries({
    mm: ['millimetre', 'millimetres', 'millimeter', 'millimeters', 'mms'],
    cm: ['centimetre', 'centimetres', 'centimeter', 'centimeters'],
    m: ['metre', 'metres', 'meter', 'meters'],
    um: ['micron', 'microns', 'micrometre', 'micrometres', 'micrometer', 'micrometers'],
    in: ['inch', 'inches', '"', '″', '”'],
    deg: ['degree', 'degrees', 'degs', 'º'],
    mrad: ['milliradian', 'milliradians'],
    rad: ['radian', 'radians'],
    turn: ['rev', 'revs', 'revolution', 'revolutions', 'rotation', 'rotations'],
    W: ['watt', 'watts'],
    s: ['sec', 'secs', 'second', 'seconds'],
    ms: ['msec', 'millisecond', 'milliseconds'],
    min: ['mins', 'minute', 'minutes'],
    h: ['hr', 'hrs', 'hour', 'hours'],
    '%': ['percent', 'pct'],
  }).flatMap(([unit, words]) => words.map((word) => [word, unit] as const)),
);

export function unitNamed(name: string): Unit | undefined {
  return UNITS.get(name);
}

/** Words that mean something in every expression, and so are no names: `sqrt` and the units. */
export function isReserved(word: string): boolean {
  return word === 'sqrt' || UNITS.has(word);
}

/** The unit that a word which is none was probably meant to be: another spelling, or other capitals. */
export function unitMeant(word: string): string | undefined {
  const lower = word.toLowerCase();
  return MEANT.get(lower) ?? [...UNITS.keys()].find((name) => name.toLowerCase() === lower);
}

/** The units of one dimension, or of all, for a message: `mm, cm, m …`. */
export function unitsOf(dimension: Dimension | undefined): string {
  return TABLE.filter(([of]) => dimension === undefined || alike(of, dimension))
    .map(([, , name]) => name)
    .join(', ');
}

export function alike(a: Dimension, b: Dimension): boolean {
  return a[0] === b[0] && a[1] === b[1] && a[2] === b[2] && a[3] === b[3];
}

/** The dimension of a × b (`sign` 1) or a / b (`sign` -1); an angle beside another dimension counts as a number. */
export function combined(a: Dimension, b: Dimension, sign: 1 | -1): Dimension {
  const [length, power, time] = [a[0] + sign * b[0], a[2] + sign * b[2], a[3] + sign * b[3]];
  return [length, length === 0 && power === 0 && time === 0 ? a[1] + sign * b[1] : 0, power, time];
}

/** A dimension in words, for a message: `length`, `angle`, `power`, `time`, `number`, else `mm^2 W s^-1`. */
export function dimensionName(dimension: Dimension): string {
  if (alike(dimension, NUMBER)) return 'number';
  if (alike(dimension, LENGTH)) return 'length';
  if (alike(dimension, ANGLE)) return 'angle';
  if (alike(dimension, POWER)) return 'power';
  if (alike(dimension, TIME)) return 'time';
  return ['mm', 'rad', 'W', 's']
    .map((unit, i) => (dimension[i] === 0 ? '' : dimension[i] === 1 ? unit : `${unit}^${dimension[i]}`))
    .filter((part) => part !== '')
    .join(' ');
}
