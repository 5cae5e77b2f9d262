/**
 * Evaluates the items of one arithmetic expression. Its form is checked here, with the place of every mistake; mathjs
 * then parses letters that stand for the quantities, and the tree is evaluated if it has only allowed nodes. Bounds on
 * length, depth and nodes protect against hostile texts.
 */
import type { MathNode, OperatorNode, ParenthesisNode, FunctionNode, SymbolNode } from 'mathjs/number';
import type { Calculator } from './calculator.ts';
import { multiplied, scaled, summed } from './components.ts';
import type { Item, QuantityItem, SignItem } from './items.ts';
import { problem, quoted, type QuantityProblem } from './reading.ts';
import { alike, combined, dimensionName, type Dimension, type Dimensioned, type Unit } from './units.ts';

const DEEPEST = 32;

/** A value in base units, its place, and whether it has no unit at all. */
export interface Evaluated extends Dimensioned {
  readonly bare: boolean;
  /** the unit of a single quantity */
  readonly unit?: Unit;
  readonly from: number;
  readonly to: number;
}

/** The value of one expression without `±`. @param text the source of the items */
export function evaluate(items: readonly Item[], text: string, calculator: Calculator): Evaluated | QuantityProblem {
  const form = arranged(items, text);
  if (typeof form !== 'string') return form;
  const quantities = items.filter((item): item is QuantityItem => item.kind === 'quantity');
  const alone = signedQuantity(items);
  if (alone) return alone;
  // The form is already checked: the parser fails only if it reads it differently.
  const result = walk(calculator.parse(form), quantities);
  if (!result) return outOfForm(items[0]!.from, items.at(-1)!.to, text, 'it is not plain arithmetic');
  return 'code' in result ? result : { ...result, bare: quantities.every((item) => item.bare) };
}

/** One quantity with at most one sign needs no parser. */
function signedQuantity(items: readonly Item[]): Evaluated | undefined {
  const [sign, only] = items.length === 1 ? [undefined, items[0]] : [items[0], items[1]];
  if (items.length > 2 || only?.kind !== 'quantity') return undefined;
  const negative = sign?.kind === 'operator' && sign.text === '-';
  return { ...(negative ? negated(only) : only), from: (sign ?? only).from };
}

function negated<Q extends Dimensioned>(of: Q): Q {
  return { ...of, value: -of.value, components: scaled(of.components, -1) };
}

/** The items as a text for the parser, with `q0`, `q1`, … for the quantities; or the problem with their order. */
function arranged(items: readonly Item[], text: string): string | QuantityProblem {
  const open: SignItem[] = [];
  let [form, quantities, operandExpected, signAllowed] = ['', 0, true, true];
  for (const [i, item] of items.entries()) {
    if (item.kind === 'plusminus')
      return outOfForm(item.from, item.to, text, 'write ± once, at the end, outside brackets');
    const opens = item.kind === 'quantity' || item.kind === 'open' || item.kind === 'sqrt';
    if (opens && !operandExpected) return operatorMissing(items[i - 1]!, item, text);
    if (!opens && operandExpected && !(signAllowed && (item.text === '+' || item.text === '-'))) {
      return operandMissing(items[i - 1], item);
    }
    if (item.kind === 'quantity') {
      form += `q${quantities++}`;
      operandExpected = false;
    } else if (item.kind === 'sqrt') {
      if (items[i + 1]?.kind !== 'open') return problem('quantity.bracket', item.from, item.to, { bracket: '(' });
      form += 'sqrt';
    } else if (item.kind === 'open') {
      if (open.push(item) > DEEPEST)
        return outOfForm(item.from, item.to, text, `brackets are more than ${DEEPEST} deep`);
      form += '(';
      signAllowed = true;
    } else if (item.kind === 'close') {
      if (!open.pop()) return problem('quantity.bracket', item.from, item.to, { bracket: ')' });
      form += ')';
    } else {
      form += item.text;
      signAllowed = !operandExpected;
      operandExpected = true;
    }
  }
  if (operandExpected) return operandMissing(items.at(-1), undefined);
  const unclosed = open.at(-1);
  return unclosed ? problem('quantity.bracket', unclosed.from, unclosed.to, { bracket: '(' }) : form;
}

function outOfForm(from: number, to: number, text: string, reason: string): QuantityProblem {
  return problem('quantity.expression', from, to, { text: quoted(text), reason });
}

function operatorMissing(before: Item, after: Item, text: string): QuantityProblem {
  const facts = { before: quoted(text.slice(before.from, before.to)), after: quoted(text.slice(after.from, after.to)) };
  return problem('quantity.operator', after.from, after.to, facts);
}

/** A number is missing before `at`, or after the last item. */
export function operandMissing(before: Item | undefined, at: Item | undefined): QuantityProblem {
  const { from, to } = at ?? before ?? { from: 0, to: 0 };
  const sign = (item: Item | undefined) => (item && item.kind !== 'quantity' ? item.text : '');
  return problem('quantity.operand', from, to, { after: sign(before), before: sign(at) });
}

interface Operand extends Dimensioned {
  readonly from: number;
  readonly to: number;
}

/** The value of a node; undefined if the tree has any node that is not plain arithmetic. */
function walk(node: MathNode | undefined, leaves: readonly QuantityItem[]): Operand | QuantityProblem | undefined {
  switch (node?.type) {
    case 'SymbolNode':
      return leaves[Number((node as SymbolNode).name.slice(1))];
    case 'ParenthesisNode':
      return walk((node as ParenthesisNode).content, leaves);
    case 'FunctionNode': {
      const { fn, args } = node as FunctionNode;
      const argument = walk(args[0], leaves);
      if (!argument || 'code' in argument) return argument;
      return (fn as unknown as SymbolNode).name === 'sqrt' && args.length === 1 ? rooted(argument) : undefined;
    }
    case 'OperatorNode': {
      const { fn, args } = node as OperatorNode;
      const a = walk(args[0], leaves);
      if (!a || 'code' in a) return a;
      if (args.length === 1) return fn === 'unaryMinus' ? negated(a) : fn === 'unaryPlus' ? a : undefined;
      const b = walk(args[1], leaves);
      if (!b || 'code' in b) return b;
      return operated(fn, a, b);
    }
    default:
      return undefined;
  }
}

function operated(fn: string, a: Operand, b: Operand): Operand | QuantityProblem | undefined {
  const whole = { from: Math.min(a.from, b.from), to: Math.max(a.to, b.to) };
  if (fn === 'multiply')
    return {
      ...whole,
      value: a.value * b.value,
      dimension: combined(a.dimension, b.dimension, 1),
      components: multiplied(a, b),
    };
  if (fn === 'divide') {
    const components = summed(scaled(a.components, 1 / b.value), scaled(b.components, -a.value / b.value ** 2));
    return { ...whole, value: a.value / b.value, dimension: combined(a.dimension, b.dimension, -1), components };
  }
  if (fn !== 'add' && fn !== 'subtract') return undefined;
  if (!alike(a.dimension, b.dimension)) {
    const facts = { wanted: dimensionName(a.dimension), found: dimensionName(b.dimension) };
    return problem('quantity.dimension', b.from, b.to, facts);
  }
  const sign = fn === 'add' ? 1 : -1;
  return {
    ...whole,
    value: a.value + sign * b.value,
    dimension: a.dimension,
    components: summed(a.components, scaled(b.components, sign)),
  };
}

function rooted(a: Operand): Operand | QuantityProblem {
  const dimension = a.dimension.map((exponent) => exponent / 2) as unknown as Dimension;
  if (!dimension.every(Number.isInteger)) {
    const facts = { wanted: 'square', found: dimensionName(a.dimension) };
    return problem('quantity.dimension', a.from, a.to, facts);
  }
  const value = Math.sqrt(a.value);
  return { ...a, value, dimension, components: scaled(a.components, 1 / (2 * value)) };
}
