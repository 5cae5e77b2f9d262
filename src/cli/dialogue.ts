/** Lines that a person types, or that a script gives on standard input. */
import { createInterface } from 'node:readline';

export interface Dialogue {
  /** Whether a person is there, who sees what is typed. */
  readonly isTerminal: boolean;
  /** The next line, without its end; undefined: there are no more. */
  ask(prompt: string): Promise<string | undefined>;
  close(): void;
}

/** @param out prints what a script does not see: questions with their answers */
export function openDialogue(out: (text: string) => void): Dialogue {
  const { stdin, stdout } = process;
  const isTerminal = stdin.isTTY && stdout.isTTY;
  const lines = createInterface({ input: stdin, terminal: isTerminal, ...(isTerminal && { output: stdout }) });
  // Lines of a pipe come all at once; each waits for its question.
  const read: string[] = [];
  let [isOver, waiting]: [boolean, ((line: string | undefined) => void)?] = [false];
  const give = (line: string | undefined) => {
    const resolve = waiting;
    waiting = undefined;
    if (resolve) resolve(line);
    else if (line !== undefined) read.push(line);
  };
  lines.on('line', give);
  lines.on('close', () => {
    isOver = true;
    give(undefined);
  });
  return {
    isTerminal,
    async ask(prompt) {
      if (isTerminal) {
        lines.setPrompt(prompt);
        lines.prompt();
      } else out(prompt);
      const line =
        read.shift() ?? (isOver ? undefined : await new Promise<string | undefined>((resolve) => (waiting = resolve)));
      // A person who ends the answers leaves the prompt on its line.
      if (!isTerminal || line === undefined) out(`${line ?? ''}\n`);
      return line;
    },
    close: () => lines.close(),
  };
}
