/** The amount of the long tests and of long lists of cases: `npm run test:deep -- --seed 7 --count 25000`. */
export const SEED = Number(process.env['SEED'] ?? 1);
/** The number of files; faster cases are run a multiple of it. */
export const COUNT = Number(process.env['COUNT'] ?? 500);

/** Timeout of one test, ms: some hundred times its duration on an idle machine. */
export const LONGEST = 60_000 + 1_000 * COUNT;

/** The number of runs of a property, which is `usual` for a count of 500. */
export const runs = (usual: number): number => Math.ceil((usual * COUNT) / 500);

/** The same as parameters of fast-check. */
export const drawn = (usual: number) => ({ seed: SEED, numRuns: runs(usual) });

/** All cases of a long list; every fourth, the first of them by the seed, for a count below 500. */
export const sampled = <T>(cases: readonly T[]): T[] => cases.filter((_, k) => COUNT >= 500 || (k + SEED) % 4 === 0);
