/** The commands without a process: output is collected, and files are real ones in a folder of the test. */
import { mkdirSync, mkdtempSync, readFileSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { threads } from '../../src/machine/index.ts';
import { evaluated, type Evaluated } from '../../src/cli/evaluated.ts';
import type { Dialogue } from '../../src/cli/dialogue.ts';
import { files } from '../../src/cli/files.ts';
import { run } from '../../src/cli/run.ts';
import type { Exit } from '../../src/cli/terminal.ts';
import { expressions } from '../../src/workbook/index.ts';

export interface Printed {
  readonly exit: Exit;
  readonly out: string;
  readonly error: string;
}

export function typed(...words: string[]): Printed {
  return printed(words, read);
}

/** For several commands about the same files, which do not change meanwhile: what takes time is done once. */
export function typist(): typeof typed {
  const known = new Map<string, Evaluated>();
  return (...words) =>
    printed(words, (file) => {
      const first = known.get(file) ?? read(file);
      known.set(file, first);
      return first;
    });
}

const read = (file: string) => evaluated(file, { threads, expressions });

function printed(words: readonly string[], reader: typeof read): Printed {
  const { exit, texts } = ran(words, reader, () => undefined);
  if (typeof exit !== 'number') throw new Error(`${words[0]} asks: use \`asked\``);
  return { exit, ...texts() };
}

/** For a command that asks. @param answers the lines typed, or what types them, by the prompt */
export async function asked(
  words: readonly string[],
  answers: readonly string[] | ((prompt: string) => string | undefined),
): Promise<Printed> {
  const lines = typeof answers === 'function' ? undefined : [...answers];
  const answer = typeof answers === 'function' ? answers : () => lines!.shift();
  const { exit, texts } = ran(words, read, answer);
  return { exit: await exit, ...texts() };
}

function ran(words: readonly string[], reader: typeof read, answer: (prompt: string) => string | undefined) {
  let [out, error] = ['', ''];
  const terminal = {
    out: (content: string | Uint8Array) => {
      out += typeof content === 'string' ? content : Buffer.from(content).toString('latin1');
    },
    error: (text: string) => {
      error += text;
    },
    paint: (_: unknown, text: string) => text,
    columns: 80,
  };
  const dialogue: Dialogue = {
    isTerminal: false,
    async ask(prompt) {
      const line = answer(prompt);
      out += `${prompt}${line ?? ''}\n`;
      return line;
    },
    close: () => undefined,
  };
  const exit = run(words, terminal, {
    version: '1.2.3',
    evaluated: reader,
    files: () => ({ ...files, openDialogue: () => dialogue }),
    tables: { threads, expressions },
    today: () => '2026-06-30',
    page: () => readFileSync(new URL('../../shared/findings.md', import.meta.url), 'utf8'),
  });
  return { exit, texts: () => ({ out, error }) };
}

export interface Folder {
  readonly path: string;
  /** Writes a file, and the folders that lead to it; gives its path. */
  file(name: string, content: string | Uint8Array): string;
  remove(): void;
}

export function folder(): Folder {
  const path = realpathSync(mkdtempSync(join(tmpdir(), 'alignbook-')));
  return {
    path,
    file(name, content) {
      const place = join(path, name);
      mkdirSync(dirname(place), { recursive: true });
      writeFileSync(place, content);
      return place;
    },
    remove: () => rmSync(path, { recursive: true, force: true }),
  };
}
