/** Writes a command's result to standard output, or to the file named by `--out`. */
import { STANDARD_OUTPUT } from './arguments.ts';
import type { Files } from './files.ts';
import type { Exit, Terminal } from './terminal.ts';
import type { Made, Problem } from './write.ts';

export interface Delivery {
  readonly made: () => Made;
  /** Absent or `-`: standard output. */
  readonly out: string | undefined;
  /** Paths of the files that were read. */
  readonly inputs: readonly string[];
}

export function deliver({ made, out, inputs }: Delivery, terminal: Terminal, files: () => Files): Exit {
  const problem =
    out === undefined || out === STANDARD_OUTPUT ? printed(made(), terminal) : files().write(out, made, inputs);
  if (problem === undefined) return 0;
  terminal.error(`alignbook: ${problem}\n`);
  return 2;
}

function printed(made: Made, { out }: Terminal): Problem {
  if ('problem' in made) return made.problem;
  out(made.content);
  return undefined;
}
