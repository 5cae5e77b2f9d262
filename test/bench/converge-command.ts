/** Compares the command with the functions, round by round: the user's answers must be those that were measured. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { isDeepStrictEqual } from 'node:util';
import type { Evaluation, Step } from '../../src/model/index.ts';

export interface Compared {
  readonly rounds: number;
  readonly different: number;
}

const COMMAND = fileURLToPath(new URL('../../dist/alignbook.cjs', import.meta.url));

export function comparison(): { compare(text: string, evaluation: Evaluation): void; finish(): Compared } {
  const folder = mkdtempSync(join(tmpdir(), 'alignbook-converge-'));
  const file = join(folder, 'trial.alignbook.yaml');
  let rounds = 0;
  let different = 0;
  return {
    compare(text, { verdict, steps }) {
      writeFileSync(file, text);
      const answer = JSON.parse(
        execFileSync(process.execPath, [COMMAND, 'next', '--json', file], { encoding: 'utf8' }),
      ) as { verdict: string; steps: unknown[] };
      const expected = JSON.parse(JSON.stringify({ verdict, steps: steps.map(asPrinted) })) as unknown;
      rounds += 1;
      if (!isDeepStrictEqual({ verdict: answer.verdict, steps: answer.steps }, expected)) different += 1;
    },
    finish() {
      rmSync(folder, { recursive: true });
      return { rounds, different };
    },
  };
}

/** In the answer the reason follows what to do, and a shift has three numbers. */
function asPrinted(step: Step): object {
  const { why, handlesLens: _, ...rest } = { handlesLens: undefined, ...step };
  const printed = { ...rest, say: why === undefined ? rest.say : `${rest.say} ${why}` };
  if (printed.kind !== 'shift') return printed;
  const {
    by: [x, y, z],
    ...shift
  } = printed;
  return { ...shift, x, y, z };
}
