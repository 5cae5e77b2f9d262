/** How much the long tests try: `npm run test:deep -- --seed 7 --count 25000`. */
export const SEED = Number(process.env['SEED'] ?? 1);
/** Files; of what takes less time than a file, a multiple of it is tried. */
export const COUNT = Number(process.env['COUNT'] ?? 500);

/** ms for one test: some hundred times what it takes on an idle machine. */
export const LONGEST = 60_000 + 1_000 * COUNT;

/** How often a property is tried that is tried `usual` times where the count is 500. */
export const runs = (usual: number): number => Math.ceil((usual * COUNT) / 500);

/** The same, as fast-check takes it. */
export const drawn = (usual: number) => ({ seed: SEED, numRuns: runs(usual) });
