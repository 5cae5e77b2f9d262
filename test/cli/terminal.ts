/** The commands without a process: output is collected, and files are real ones in a folder of the test. */
import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { threads } from '../../src/machine/index.ts';
import { evaluated, type Evaluated } from '../../src/cli/evaluated.ts';
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

function printed(words: readonly string[], started: typeof read): Printed {
  let [out, error] = ['', ''];
  const terminal = {
    out: (content: string | Uint8Array) => {
      out += typeof content === 'string' ? content : Buffer.from(content).toString('latin1');
    },
    error: (text: string) => {
      error += text;
    },
    paint: (_: unknown, text: string) => text,
  };
  const exit = run(words, terminal, {
    version: '1.2.3',
    evaluated: started,
    files: () => files,
    tables: { threads, expressions },
    today: () => '2026-06-30',
  });
  return { exit, out, error };
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
