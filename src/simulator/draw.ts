/**
 * Draws by a counter-based hash: a number depends only on the seed and on what it is for, never on the order of draws.
 * Integer arithmetic and exact sums only, so that every engine draws the same machine.
 */

/** What a draw is for: words, and counts from 0. */
export type Purpose = readonly (string | number)[];

/** The draws of one seed. */
export interface Draws {
  /** 0 … 1, without 1 */
  uniform(...purpose: Purpose): number;
  /**
   * Mean 0, standard deviation 1, never beyond ± 6: the sum of twelve uniform draws (Irwin and Hall), which needs no
   * logarithm and no cosine.
   */
  normal(...purpose: Purpose): number;
  /** One of several, each with the same probability. */
  choose<T>(from: readonly T[], ...purpose: Purpose): T;
}

const TWO_32 = 4294967296;
const TERMS = 12;

/** @param seed any whole number from 0, as large as it can be written exactly */
export function draws(seed: number): Draws {
  const start = mixed(mixed(0x9e3779b9, seed >>> 0), Math.floor(seed / TWO_32) >>> 0);
  const uniform = (...purpose: Purpose) => finished(purpose.reduce<number>(withKey, start)) / TWO_32;
  return {
    uniform,
    normal(...purpose) {
      let sum = 0;
      for (let k = 0; k < TERMS; k++) sum += uniform(...purpose, 'term', k);
      return sum - TERMS / 2;
    },
    choose: (from, ...purpose) => from[Math.floor(uniform(...purpose) * from.length)]!,
  };
}

/** Words are mixed letter by letter, then their length, so that `a`, `b` is not `ab`. */
function withKey(state: number, key: string | number): number {
  if (typeof key === 'number') return mixed(state, Math.round(key) >>> 0);
  let after = state;
  for (let k = 0; k < key.length; k++) after = mixed(after, key.charCodeAt(k));
  return mixed(after, key.length + 0x10000);
}

/** One round of MurmurHash3 (Appleby, public domain). */
function mixed(state: number, key: number): number {
  let word = Math.imul(key, 0xcc9e2d51);
  word = (word << 15) | (word >>> 17);
  let after = state ^ Math.imul(word, 0x1b873593);
  after = (after << 13) | (after >>> 19);
  return (Math.imul(after, 5) + 0xe6546b64) >>> 0;
}

/** Its finaliser: every bit of the state changes every bit of the result. */
function finished(state: number): number {
  let word = state ^ (state >>> 16);
  word = Math.imul(word, 0x85ebca6b);
  word ^= word >>> 13;
  word = Math.imul(word, 0xc2b2ae35);
  return (word ^ (word >>> 16)) >>> 0;
}
