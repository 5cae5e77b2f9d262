/**
 * The units and their algebra. Base units are mm, rad, W, s, A and K. A radian is a unit of its own in sums (1 mrad + 1
 * is an error) but vanishes in a product with any other (3 mrad × 600 mm is 1.8 mm).
 */
import type { Components } from './components.ts';

/** Exponents of mm, rad, W, s, A and K. */
export type Dimension = readonly [
  length: number,
  angle: number,
  power: number,
  time: number,
  current: number,
  temperature: number,
];

/**
 * A number in base units (mm, rad, W, s, A; degrees Celsius for a temperature) and its dimension; if it depends on
 * uncertain inputs, their components.
 */
export interface Dimensioned {
  readonly value: number;
  readonly dimension: Dimension;
  readonly components?: Components | undefined;
}

export interface Unit {
  readonly name: string;
  /** the factor to base units */
  readonly factor: number;
  readonly dimension: Dimension;
}

export const NUMBER: Dimension = [0, 0, 0, 0, 0, 0];
export const LENGTH: Dimension = [1, 0, 0, 0, 0, 0];
export const ANGLE: Dimension = [0, 1, 0, 0, 0, 0];
export const POWER: Dimension = [0, 0, 1, 0, 0, 0];
export const TIME: Dimension = [0, 0, 0, 1, 0, 0];
const CURRENT: Dimension = [0, 0, 0, 0, 1, 0];
/** W/A */
const VOLTAGE: Dimension = [0, 0, 1, 0, -1, 0];
/** W s/mm³ */
const PRESSURE: Dimension = [-3, 0, 1, 1, 0, 0];
/** mm³/s */
const FLOW: Dimension = [3, 0, 0, -1, 0, 0];
const TEMPERATURE: Dimension = [0, 0, 0, 0, 0, 1];

const NAMED: readonly (readonly [Dimension, string])[] = [
  [NUMBER, 'number'],
  [LENGTH, 'length'],
  [ANGLE, 'angle'],
  [POWER, 'power'],
  [TIME, 'time'],
  [CURRENT, 'current'],
  [VOLTAGE, 'voltage'],
  [PRESSURE, 'pressure'],
  [FLOW, 'flow'],
  [TEMPERATURE, 'temperature'],
];

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
  // Only differences and limits of temperatures are used, so the scale's own zero is sufficient.
  [TEMPERATURE, 1, 'degC'],
  [PRESSURE, 1e-4, 'bar'],
  [FLOW, 1e6 / 60, 'l/min'],
  [VOLTAGE, 1, 'V'],
  [CURRENT, 1e-3, 'mA'],
];

const UNITS: ReadonlyMap<string, Unit> = new Map(
  TABLE.flatMap(([dimension, factor, ...names]) => names.map((name) => [name, { name, factor, dimension }] as const)),
);

/** Common spellings of units, in lower case → the format's unit. */
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
    degC: ['c', 'celsius'],
    bar: ['bars'],
    'l/min': ['lpm'],
    V: ['volt', 'volts'],
    mA: ['milliamp', 'milliamps', 'milliampere', 'milliamperes'],
  }).flatMap(([unit, words]) => words.map((word) => [word, unit] as const)),
);

export function unitNamed(name: string): Unit | undefined {
  return UNITS.get(name);
}

/** Words with a fixed meaning in every expression, which cannot be names: `sqrt` and the units. */
export function isReserved(word: string): boolean {
  return word === 'sqrt' || UNITS.has(word);
}

/** The unit that an unknown word probably means: another spelling, or other capitals. */
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
  return a.every((exponent, i) => exponent === b[i]);
}

/** The dimension of a × b (`sign` 1) or a / b (`sign` -1); an angle with another dimension counts as a number. */
export function combined(a: Dimension, b: Dimension, sign: 1 | -1): Dimension {
  const [length, angle, ...others] = a.map((exponent, i) => exponent + sign * b[i]!) as unknown as Dimension;
  const isAngle = length === 0 && others.every((exponent) => exponent === 0);
  return [length, isAngle ? angle : 0, ...others];
}

/** A dimension in words, for a message: `length`, `angle`, `power`, `pressure`, `number`, …, else `mm^2 W s^-1`. */
export function dimensionName(dimension: Dimension): string {
  const name = NAMED.find(([of]) => alike(of, dimension))?.[1];
  if (name !== undefined) return name;
  return ['mm', 'rad', 'W', 's', 'A', 'K']
    .map((unit, i) => (dimension[i] === 0 ? '' : dimension[i] === 1 ? unit : `${unit}^${dimension[i]}`))
    .filter((part) => part !== '')
    .join(' ');
}
