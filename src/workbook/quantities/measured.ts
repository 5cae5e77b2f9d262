/**
 * Reads a scalar into a number in base units with its standard uncertainty. One regular expression reads the plain
 * `NUMBER UNIT`, which is nearly every quantity of a workbook; everything else takes the slow path, which also finds
 * the problems.
 */
import type { Quantity, Units } from '../../model/index.ts';
import type { Calculator } from './calculator.ts';
import { evaluate, operandMissing, type Evaluated } from './expression.ts';
import { itemsOf, expectedName, type Item, type Names } from './items.ts';
import { problem, quoted, read, refuse, tooLong, type QuantityProblem, type Reading } from './reading.ts';
import { alike, ANGLE, dimensionName, NUMBER, unitNamed, unitsOf, type Dimension, type Unit } from './units.ts';

/** What a reader needs from its context. */
export interface QuantityContext {
  /** the unit of lengths without one: the machine cell's `units` */
  readonly units: Units;
  readonly calculator: Calculator;
}

/** The lower bound of a quantity: `positive` a billionth of the base unit, `not negative` 0. */
export type Must = 'positive' | 'not negative';

export interface Expected {
  readonly dimension: Dimension;
  /** the unit of a number without one; absent: a unit is required */
  readonly bare?: Unit;
  /** the maximum magnitude, in base units */
  readonly most: number;
  readonly must?: Must | undefined;
}

const PLAIN = /^\s*([+-]?\d+(?:\.\d+)?)\s*([A-Za-zµμ%]*)\s*$/u;

/** The quantity in base units. Problems: any `quantity.*`. */
export function readMeasured(text: string, expected: Expected, calculator: Calculator): Reading<Quantity> {
  const plain = text.length < 40 ? PLAIN.exec(text) : null;
  const unit = plain && (plain[2] === '' ? expected.bare : unitNamed(plain[2]!));
  if (unit && alike(unit.dimension, expected.dimension)) {
    const value = Number(plain[1]) * unit.factor;
    if (Math.abs(value) <= expected.most && isAllowed(value, expected.must)) return read({ value });
  }
  return tooLong(text) ?? new LongWay(text, expected, calculator).read();
}

class LongWay {
  private readonly text: string;
  private readonly expected: Expected;
  private readonly calculator: Calculator;

  constructor(text: string, expected: Expected, calculator: Calculator) {
    this.text = text;
    this.expected = expected;
    this.calculator = calculator;
  }

  read(): Reading<Quantity> {
    const sides = evaluatedSides(this.text, this.expected.dimension, undefined, this.calculator);
    if (!('value' in sides)) return refuse(...sides.problems);
    const { value: nominal, u: uncertainty } = sides;
    const value = this.inBase(nominal, uncertainty?.unit);
    if (typeof value !== 'number') return refuse(value);
    const wrong = this.outOfBounds(value, nominal);
    if (wrong) return refuse(wrong);
    if (!uncertainty) return read({ value });
    const u = this.isRelative(uncertainty)
      ? Math.abs(value) * uncertainty.value
      : this.inBase(uncertainty, nominal.unit);
    if (typeof u !== 'number') return refuse(u);
    if (u < 0) return refuse(this.problemAt('quantity.sign', uncertainty, { must: 'not negative' }));
    return Math.abs(u) <= this.expected.most ? read({ value, u }) : refuse(this.outOfRange(uncertainty));
  }

  /** `44 mm ± 2 %`: relative to the value. For a percentage, ± is in percentage points. */
  private isRelative(uncertainty: Evaluated): boolean {
    return uncertainty.unit?.name === '%' && !alike(this.expected.dimension, NUMBER);
  }

  /** The value in base units; a number without a unit gets that of the other side of `±`, else the reader's default. */
  private inBase(side: Evaluated, otherUnit: Unit | undefined): number | QuantityProblem {
    const { dimension, bare } = this.expected;
    if (side.bare) {
      const unit = otherUnit && alike(otherUnit.dimension, dimension) ? otherUnit : bare;
      const facts = { wanted: dimensionName(dimension), known: unitsOf(dimension) };
      return unit ? side.value * unit.factor : this.problemAt('quantity.noUnit', side, facts);
    }
    const isSlope = alike(dimension, ANGLE) && alike(side.dimension, NUMBER) && !side.unit;
    if (alike(side.dimension, dimension) || isSlope) return side.value;
    return this.problemAt('quantity.dimension', side, {
      wanted: dimensionName(dimension),
      found: dimensionName(side.dimension),
    });
  }

  private outOfBounds(value: number, at: Evaluated): QuantityProblem | undefined {
    if (!(Math.abs(value) <= this.expected.most)) return this.outOfRange(at);
    const { must } = this.expected;
    return isAllowed(value, must) ? undefined : this.problemAt('quantity.sign', at, { must: must! });
  }

  private outOfRange(at: Evaluated): QuantityProblem {
    const { dimension, most, must } = this.expected;
    const kind = dimensionName(dimension);
    const unit = { length: ' m', angle: ' rad', power: ' W', time: ' s' }[kind] ?? '';
    const bound = `${kind === 'length' ? most / 1000 : most}${unit}`;
    return this.problemAt('quantity.range', at, { least: must === undefined ? `-${bound}` : `0${unit}`, most: bound });
  }

  private problemAt(code: QuantityProblem['code'], at: Evaluated, facts: Record<string, string>): QuantityProblem {
    return problem(code, at.from, at.to, { text: quoted(this.text.slice(at.from, at.to)), ...facts });
  }
}

/** In base units: a smaller value counts as zero, because its square underflows. */
const LEAST = 1e-9;

function isAllowed(value: number, must: Must | undefined): boolean {
  return must === undefined || value >= LEAST || (value >= 0 && must === 'not negative');
}

/** Both sides of a `±`, or the value alone. */
export function evaluatedSides(
  text: string,
  expected: Dimension | undefined,
  names: Names | undefined,
  calculator: Calculator,
): { value: Evaluated; u?: Evaluated } | { problems: readonly QuantityProblem[] } {
  const { items, problems } = itemsOf(text, expected, names);
  if (problems.length > 0) return { problems };
  if (items.length === 0)
    return {
      problems: [
        problem('quantity.unreadable', 0, text.length, { text: quoted(text), wanted: expectedName(expected) }),
      ],
    };
  const { left, sign, right } = sidesOf(items);
  if (sign && (left.length === 0 || right.length === 0)) return { problems: [operandMissing(left.at(-1), sign)] };
  const value = evaluate(left, text, calculator);
  if ('code' in value) return { problems: [value] };
  if (!sign) return { value };
  const u = evaluate(right, text, calculator);
  return 'code' in u ? { problems: [u] } : { value, u };
}

/** A second `±`, or one within brackets, stays in its side, where it is reported. */
function sidesOf(items: readonly Item[]): { left: Item[]; sign: Item | undefined; right: Item[] } {
  let depth = 0;
  const at = items.findIndex(({ kind }) => {
    depth += kind === 'open' ? 1 : kind === 'close' ? -1 : 0;
    return kind === 'plusminus' && depth === 0;
  });
  return at < 0
    ? { left: [...items], sign: undefined, right: [] }
    : { left: items.slice(0, at), sign: items[at], right: items.slice(at + 1) };
}
