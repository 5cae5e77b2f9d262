/**
 * Loads a file of the program on demand. If it is missing or damaged, for example after an incomplete installation, a
 * sentence on standard error names it, and the process ends with exit code 2 without an answer.
 */
import { writeSync } from 'node:fs';

/** Loads a part of the program, or ends the process if it is missing or damaged. */
export function part<T>(file: string, load: () => T): T {
  try {
    return load();
  } catch (problem) {
    if (!isDamaged(problem, file)) throw problem;
    writeSync(2, `alignbook: the program file \`${file}\` is missing or damaged. Reinstall Alignbook.\n`);
    return process.exit(2);
  }
}

/** Only if Node names the file: other errors are not due to a damaged installation. */
function isDamaged(problem: unknown, file: string): boolean {
  if (problem instanceof SyntaxError) return problem.stack?.split('\n', 1)[0]?.includes(file) === true;
  const isMissing = problem instanceof Error && 'code' in problem && problem.code === 'MODULE_NOT_FOUND';
  return isMissing && problem.message.includes(file);
}
