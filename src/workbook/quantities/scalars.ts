/** The readers of single quantities: they differ only in dimension, default unit and maximum. */
import type { Quantity } from '../../model/index.ts';
import { evaluatedSides, readMeasured, type Must, type QuantityContext } from './measured.ts';
import type { Names } from './items.ts';
import { problem, quoted, read, refuse, tooLong, type Reading } from './reading.ts';
import {
  ANGLE,
  dimensionName,
  LENGTH,
  NUMBER,
  POWER,
  TIME,
  unitNamed,
  unitsOf,
  type Dimensioned,
  type Unit,
} from './units.ts';

/** A kilometre, a hundred turns, a megawatt, thirty years: larger values are slips. */
const MOST = { length: 1e6, angle: 200 * Math.PI, power: 1e6, time: 1e9, number: 1e9, any: 1e9 } as const;

const ONE: Unit = { name: '', factor: 1, dimension: NUMBER };

/** mm. A number without a unit is in the context's units. */
export function readLength(text: string, context: QuantityContext, must?: Must): Reading<Quantity> {
  const bare = unitNamed(context.units)!;
  return readMeasured(text, { dimension: LENGTH, bare, most: MOST.length, must }, context.calculator);
}

/** Radians. A unit is required, or a quotient of two lengths. */
export function readAngle(text: string, context: QuantityContext, must?: Must): Reading<Quantity> {
  return readMeasured(text, { dimension: ANGLE, most: MOST.angle, must }, context.calculator);
}

/** Radians; a number without a unit is in turns. */
export function readTurned(text: string, context: QuantityContext): Reading<Quantity> {
  return readMeasured(text, { dimension: ANGLE, bare: unitNamed('turn')!, most: MOST.angle }, context.calculator);
}

/** W. */
export function readPower(text: string, context: QuantityContext, must?: Must): Reading<Quantity> {
  return readMeasured(text, { dimension: POWER, most: MOST.power, must }, context.calculator);
}

/** Seconds: a time or a duration. */
export function readTime(text: string, context: QuantityContext, must?: Must): Reading<Quantity> {
  return readMeasured(text, { dimension: TIME, most: MOST.time, must }, context.calculator);
}

/** A plain number, such as M². */
export function readNumber(text: string, context: QuantityContext, must?: Must): Reading<Quantity> {
  return readMeasured(text, { dimension: NUMBER, bare: ONE, most: MOST.number, must }, context.calculator);
}

/** A ratio from 0 to `most` (default 1), written `20 %` or `0.2`. */
export function readFraction(text: string, context: QuantityContext, most = 1): Reading<Quantity> {
  const reading = readNumber(text, context);
  if (reading.value === undefined || (reading.value.value >= 0 && reading.value.value <= most)) return reading;
  const from = text.length - text.trimStart().length;
  const to = text.trimEnd().length;
  const facts = {
    text: quoted(text),
    ...(text.includes('%') ? { least: '0 %', most: `${100 * most} %` } : { least: '0', most: String(most) }),
  };
  const isPercent = /^\s*\d+(\.\d+)?\s*$/.test(text) && reading.value.value <= 100 * most;
  return refuse(problem('quantity.range', from, to, facts, isPercent ? `${text.trim()} %` : undefined));
}

/** The power of a pulse: a ratio to the full power, or W. */
export function readPulsePower(text: string, context: QuantityContext): Reading<{ ratio: number } | { watts: number }> {
  const power = readPower(text, context, 'not negative');
  if (power.value) return read({ watts: power.value.value });
  const code = power.problems[0]?.code;
  if (code !== 'quantity.dimension' && code !== 'quantity.noUnit') return refuse(...power.problems);
  const ratio = readFraction(text, context);
  return ratio.value ? read({ ratio: ratio.value.value }) : refuse(...ratio.problems);
}

/** The value of an expression in base units, of any dimension; `u` is the ± at its own end. */
export interface Result extends Quantity, Dimensioned {
  /** `length`, `angle`, `power`, `pressure`, `number`, …, else as in `mm^2` */
  readonly kind: string;
}

/** A measured value, in base units; `kind` is its dimension in words. */
export interface Measurement extends Quantity {
  readonly kind: string;
}

/** Of any dimension: a unit must be written. */
export function readQuantity(text: string, { calculator }: QuantityContext): Reading<Measurement> {
  const long = tooLong(text);
  if (long) return long;
  const sides = evaluatedSides(text, undefined, undefined, calculator);
  if ('problems' in sides) return refuse(...sides.problems);
  // `19.5 ± 0.5 degC`: a bare number takes the unit of the other side.
  const { dimension, bare, from, to } = sides.value.bare && sides.u && !sides.u.bare ? sides.u : sides.value;
  const kind = dimensionName(dimension);
  if (bare)
    return refuse(
      problem('quantity.noUnit', from, to, { text: quoted(text), wanted: kind, known: unitsOf(undefined) }),
    );
  const { value, problems } = readMeasured(text, { dimension, most: MOST.any }, calculator);
  return value === undefined ? refuse(...problems) : read({ ...value, kind });
}

/** Scratch arithmetic: any dimension; bare numbers are numbers; `names` are the values that words may stand for. */
export function readExpression(text: string, { calculator }: QuantityContext, names?: Names): Reading<Result> {
  const long = tooLong(text);
  if (long) return long;
  const sides = evaluatedSides(text, undefined, names ?? new Map(), calculator);
  if ('problems' in sides) return refuse(...sides.problems);
  const { value, u } = sides;
  const { dimension } = value;
  const ratio = u?.unit?.name === '%' && dimensionName(dimension) !== 'number';
  if (u && !ratio && dimensionName(u.dimension) !== dimensionName(dimension)) {
    const facts = { wanted: dimensionName(dimension), found: dimensionName(u.dimension) };
    return refuse(problem('quantity.dimension', u.from, u.to, facts));
  }
  if (u && u.value < 0) {
    const facts = { text: quoted(text.slice(u.from, u.to)), must: 'not negative' };
    return refuse(problem('quantity.sign', u.from, u.to, facts));
  }
  const expanded = u && (ratio ? Math.abs(value.value) * u.value : u.value);
  if (!Number.isFinite(value.value) || !Number.isFinite(expanded ?? 0)) {
    const facts = { text: quoted(text), least: String(-Number.MAX_VALUE), most: String(Number.MAX_VALUE) };
    return refuse(problem('quantity.range', value.from, value.to, facts));
  }
  const { components } = value;
  const result = { value: value.value, dimension, kind: dimensionName(dimension), ...(components && { components }) };
  return read(expanded === undefined ? result : { ...result, u: expanded });
}
