/** Shifts of a tube or a block: `1.5 mm up`, `2 mm left 1 mm up`, in the machine's directions. */
import { DIRECTIONS, directionVector, isDirection, nearest, type Displacement } from '../../model/index.ts';
import { directedLength, givenTwice, structure, wrongOrder, type DirectedLength } from './directed.ts';
import type { QuantityContext } from './measured.ts';
import { problem, quoted, read, refuse, tooLong, type QuantityProblem, type Reading } from './reading.ts';

/** A displacement of a tube or block. */
export interface Shift {
  /** mm, x right, y rear, z up */
  readonly vector: Displacement;
  /** standard uncertainties in mm, if any was written */
  readonly u?: Displacement;
}

/** Problems: `shift.*` and those of a length. */
export function readShift(written: string, context: QuantityContext): Reading<Shift> {
  const long = tooLong(written);
  if (long) return long;
  const { text, words, problems } = structure(written, 'shift');
  if (text.trim() === '') return refuse(problem('shift.unreadable', 0, text.length, { text: '' }));
  const order = wrongOrder(text, words, 'shift');
  if (order) return refuse(...problems, order);
  const parts: DirectedLength[] = [];
  let cursor = 0;
  for (const word of words) {
    if (!isDirection(word.text)) {
      problems.push(unknown(word.text, word.from, word.to));
    } else {
      const part = directedLength(text, cursor, word, 'shift', context);
      if (Array.isArray(part)) problems.push(...part);
      else parts.push(part);
    }
    cursor = word.to;
  }
  const rest = text.slice(cursor).trim();
  if (rest !== '') {
    problems.push(
      problem('shift.direction', text.indexOf(rest, cursor), text.trimEnd().length, { text: quoted(rest) }),
    );
  }
  const twice = givenTwice(parts, 'shift');
  if (twice) problems.push(twice);
  return problems.length > 0 ? refuse(...problems) : read(summed(parts));
}

function unknown(word: string, from: number, to: number): QuantityProblem {
  const suggestion = nearest(word, DIRECTIONS);
  return problem('shift.word', from, to, { word: quoted(word), ...(suggestion && { suggestion }) }, suggestion);
}

function summed(parts: readonly DirectedLength[]): Shift {
  const along = (axis: number, of: (part: DirectedLength) => number) =>
    parts.reduce((sum, part) => sum + directionVector(part.word)[axis]! * of(part), 0);
  const vector = [0, 1, 2].map((axis) => along(axis, (part) => part.length)) as unknown as Displacement;
  if (parts.every((part) => part.u === undefined)) return { vector };
  return {
    vector,
    u: [0, 1, 2].map((axis) => Math.abs(along(axis, (part) => part.u ?? 0))) as unknown as Displacement,
  };
}
