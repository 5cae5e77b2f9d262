// What .ci/run does in smaller sizes, whole, with any seed and count: node .ci/deep.mjs --seed 7 --count 25000
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';

const {
  values: { seed, count },
} = parseArgs({ options: { seed: { type: 'string', default: '1' }, count: { type: 'string', default: '2000' } } });
if (![seed, count].every((value) => /^\d+$/.test(value))) throw new Error('--seed and --count are whole numbers');
const vitest = fileURLToPath(new URL('../node_modules/vitest/vitest.mjs', import.meta.url));
const projects = ['deep', 'simulation', 'program', 'workbench'];
const { status } = spawnSync(process.execPath, [vitest, 'run', ...projects.flatMap((one) => ['--project', one])], {
  stdio: 'inherit',
  env: { ...process.env, SEED: seed, COUNT: count },
});
process.exit(status ?? 1);
