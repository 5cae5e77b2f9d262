/** What the tests of readers share: contexts, and a reading in one short line. */
import {
  createCalculator,
  expressions,
  type QuantityContext,
  type QuantityProblem,
  type Reading,
} from '../../../src/workbook/quantities/index.ts';

const calculator = createCalculator(expressions);

export const MM: QuantityContext = { units: 'mm', calculator };
export const INCHES: QuantityContext = { units: 'in', calculator };

/** `code` or `code[from,to)`, and `→ fix` where there is one. */
function said({ code, from, to, fix }: QuantityProblem, text: string): string {
  const whole = from === 0 && to === text.length;
  return code + (whole ? '' : ` at ‘${text.slice(from, to)}’`) + (fix === undefined ? '' : ` → ‘${fix}’`);
}

/** The problems of a reading, in short lines; fails where a reading has both a value and problems, or neither. */
export function problemsOf(reading: Reading<unknown>, text: string): string[] {
  if ((reading.value === undefined) === (reading.problems.length === 0)) throw new Error(`both or neither: ${text}`);
  return reading.problems.map((problem) => said(problem, text));
}

/** `text` with the first fix put in its place. */
export function fixed(text: string, reading: Reading<unknown>): string {
  const problem = reading.problems.find(({ fix }) => fix !== undefined);
  return problem ? text.slice(0, problem.from) + problem.fix! + text.slice(problem.to) : text;
}
