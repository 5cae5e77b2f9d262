/** The allowed imports, read from the table in DEVELOPERS.md, so that the documented rule is the tested one. */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, posix } from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..', '..');

export interface Layer {
  readonly folder: string;
  readonly mayImport: readonly string[];
  /** Packages and `node:` modules. */
  readonly packages: readonly string[];
}

/** Rows `| src/cells | model, shared | yaml | what it does |` under the heading "Layers". */
export function layers(): Layer[] {
  const guide = readFileSync(join(ROOT, 'DEVELOPERS.md'), 'utf8');
  const rows = guide.split('\n').filter((line) => /^\| `(src\/\w+|shared)` \|/.test(line));
  return rows.map((row) => {
    const [folder, may, packages] = row
      .split('|')
      .slice(1)
      .map((cell) => cell.trim().replaceAll('`', ''));
    const list = (cell = '') =>
      cell
        .split(',')
        .map((word) => word.trim())
        .filter((word) => word !== '' && word !== '–');
    return {
      folder: folder!,
      mayImport: list(may).map((name) => (name === 'shared' ? name : `src/${name}`)),
      packages: list(packages),
    };
  });
}

export interface Import {
  readonly from: string;
  readonly to: string;
}

/** Every static and dynamic import of the project's own code, paths relative to the root. */
export function imports(): Import[] {
  const files = ['src', 'shared'].flatMap((folder) =>
    readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' }).map((file) =>
      posix.join(folder, file.replaceAll('\\', '/')),
    ),
  );
  return files
    .filter((file) => /\.tsx?$/.test(file))
    .flatMap((from) => {
      const text = readFileSync(join(ROOT, from), 'utf8');
      const result = [
        ...text.matchAll(
          /(?:^|\n)\s*(?:import|export)\b[^'"\n;]*?(?:\{[^}]*\}[^'"\n;]*?)?\bfrom\s+'([^']+)'|(?:^|\n)\s*import\s+'([^']+)'|\b(?:import|require)\(\s*'([^']+)'\s*\)/g,
        ),
      ];
      return result.map(([, named, bare, dynamic]) => ({ from, to: resolved(from, (named ?? bare ?? dynamic)!) }));
    });
}

function resolved(from: string, specifier: string): string {
  return specifier.startsWith('.') ? posix.join(posix.dirname(from), specifier) : specifier;
}

export function folderOf(file: string): string {
  const [top, second] = file.split('/');
  return top === 'src' ? `src/${second}` : top!;
}
