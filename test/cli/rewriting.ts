/**
 * For a process that is killed: writes a file again and again, all of it one letter, then all of it the next. `node
 * rewriting.ts FILE SIZE`
 */
import { write } from '../../src/cli/write.ts';

const [file, size] = [process.argv[2]!, Number(process.argv[3])];
for (let letter = 0; ; letter = (letter + 1) % 26) {
  const problem = write(file, () => ({ content: Buffer.alloc(size, 97 + letter) }), []);
  if (problem !== undefined) throw new Error(problem);
  // Whoever kills this waits for it.
  process.stdout.write('.');
}
