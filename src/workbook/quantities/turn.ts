/**
 * Turns of a screw: `in 1/4`, `out 90 deg`, `in 2 flats`, `out 1/8 in at rim`. The direction always comes first,
 * because `1/4 in` could be a quarter turn in or a quarter of an inch.
 */
import type { Quantity } from '../../model/index.ts';
import type { QuantityContext } from './measured.ts';
import { problem, quoted, read, refuse, shifted, tooLong, type QuantityProblem, type Reading } from './reading.ts';
import { readLength, readTurned } from './scalars.ts';
import { RADIANS_PER_TURN } from './units.ts';

/** A turn of a screw, as written. */
export interface Turn {
  readonly sense: 'in' | 'out';
  /**
   * turns of the screw, or mm of travel of the knob's rim; not negative, `u` the standard uncertainty in the same unit
   */
  readonly amount: { readonly turns: number; readonly u?: number } | { readonly rim: number; readonly u?: number };
}

const SENSE = /^\s*(in|out)(?![\w.])/;
const AT_RIM = /\s+at\s+(?:the\s+)?rim\s*$/;

const MEANT: Readonly<Record<string, 'in' | 'out'>> = {
  cw: 'in',
  clockwise: 'in',
  tighten: 'in',
  inward: 'in',
  inwards: 'in',
  ccw: 'out',
  anticlockwise: 'out',
  counterclockwise: 'out',
  loosen: 'out',
  outward: 'out',
  outwards: 'out',
};

/** Problems: `turn.sense`, `turn.amount`, `turn.length`, and those of a length or an angle. */
export function readTurn(text: string, context: QuantityContext): Reading<Turn> {
  const long = tooLong(text);
  if (long) return long;
  const match = SENSE.exec(text);
  if (!match) return refuse(senseMissing(text));
  const sense = match[1] as 'in' | 'out';
  const at = match[0].length;
  const rest = text.slice(at);
  if (rest.trim() === '') return refuse(problem('turn.amount', 0, text.length, { text: quoted(text) }));
  const amount = shifted(readAmount(rest, context), at);
  if (!amount.value) return refuse(...amount.problems);
  const size = 'turns' in amount.value ? amount.value.turns : amount.value.rim;
  return size < 0 ? refuse(negative(text, sense)) : read({ sense, amount: amount.value });
}

/** Turns, positive = in; undefined if the travel of the rim is given and the knob's diameter (mm) is unknown. */
export function signedTurns({ sense, amount }: Turn, knob?: number): number | undefined {
  const turns = 'turns' in amount ? amount.turns : knob === undefined ? undefined : amount.rim / (Math.PI * knob);
  return turns === undefined || sense === 'in' ? turns : 0 - turns;
}

function readAmount(rest: string, context: QuantityContext): Reading<Turn['amount']> {
  const rim = AT_RIM.exec(rest);
  if (rim) {
    const length = readLength(rest.slice(0, rim.index), context);
    return length.value ? read(withU({ rim: length.value.value }, length.value.u)) : refuse(...length.problems);
  }
  const turned = readTurned(rest, context);
  if (turned.value) return read(inTurns(turned.value));
  const isLength = turned.problems.some(
    ({ code, facts }) => code === 'quantity.dimension' && facts['found'] === 'length',
  );
  if (!isLength) return refuse(...turned.problems);
  const end = rest.trimEnd().length;
  const start = rest.length - rest.trimStart().length;
  const written = rest.slice(start, end);
  return refuse(problem('turn.length', start, end, { text: quoted(written) }, `${written} at rim`));
}

function inTurns({ value, u }: Quantity): Turn['amount'] {
  return withU({ turns: value / RADIANS_PER_TURN }, u === undefined ? undefined : u / RADIANS_PER_TURN);
}

function withU<T extends object>(amount: T, u: number | undefined): T & { u?: number } {
  return u === undefined ? amount : { ...amount, u };
}

/** A fix only if the meaning is certain: another word for the direction, or `out` at the end. */
function senseMissing(text: string): QuantityProblem {
  const facts = { text: quoted(text) };
  const word = /^\s*([A-Za-z]+)/.exec(text);
  const meant = word && MEANT[word[1]!.toLowerCase()];
  if (meant) return problem('turn.sense', word[0].length - word[1]!.length, word[0].length, facts, meant);
  const capitals = /^\s*(in|out)\s/i.exec(text);
  if (capitals)
    return problem(
      'turn.sense',
      0,
      text.length,
      facts,
      text.trim().replace(/^\w+/, (w) => w.toLowerCase()),
    );
  const last = /^\s*(.*\S)\s+(out|in)\s*$/.exec(text);
  const certain = last && (last[2] === 'out' || /[a-z°]$/.test(last[1]!));
  return problem('turn.sense', 0, text.length, facts, certain ? `${last[2]} ${last[1]}` : undefined);
}

function negative(text: string, sense: 'in' | 'out'): QuantityProblem {
  const simple = /^(\s*\w+\s+)[-−]\s*([^-+−]*)$/.exec(text);
  const fix = simple ? `${sense === 'in' ? 'out' : 'in'} ${simple[2]!.trim()}` : undefined;
  return problem('turn.amount', 0, text.length, { text: quoted(text) }, fix);
}
