/** Seeded draws (mulberry32, public domain), so that a run can be repeated from the seed that it prints. */
export interface Random {
  /** 0 … 1 */
  uniform(): number;
  /** Standard normal (Box and Muller 1958). */
  normal(): number;
  choose<T>(from: readonly T[]): T;
}

export function random(seed: number): Random {
  let state = seed >>> 0;
  const uniform = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
  return {
    uniform,
    normal: () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform()),
    choose: (from) => from[Math.floor(uniform() * from.length)]!,
  };
}
