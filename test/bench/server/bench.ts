/**
 * The language server against a general one for YAML that is given our schema, and against floors measured in the same
 * run: parsing the text with `yaml`, and a server that does nothing. Ratios count; milliseconds are of this machine.
 * Prints whether each goal is met, and exits with 1 if one is not.
 *
 *     npm run bench:server
 *     npm run bench:server -- --cells 100,1000 --rounds 5
 */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import { build } from 'esbuild';
import { parseAllDocuments } from 'yaml';
import { median } from '../median.ts';
import { course, type Course } from './course.ts';
import { fireRatio } from './practice.ts';
import { goals, table, type Measured } from './report.ts';
import { seeded } from './seeded.ts';
import type { Subject } from './subject.ts';

const HERE = import.meta.dirname;
const ROOT = join(HERE, '..', '..', '..');
const { values } = parseArgs({
  options: {
    cells: { type: 'string', default: '100,1000,10000' },
    rounds: { type: 'string', default: '7' },
    only: { type: 'string' },
  },
});
const rounds = Number(values.rounds);
const folder = mkdtempSync(join(tmpdir(), 'alignbook-bench-'));

try {
  const subjects: Subject[] = [await emptyServer(), ours(), peer()].filter(
    ({ name }) => values.only === undefined || name === values.only,
  );
  console.log(`node ${process.version}, ${rounds} rounds, medians`);
  const measured: Measured[] = [];
  for (const cells of values.cells.split(',').map(Number)) {
    const workbook = seeded(cells);
    const parse = parsed(workbook.text);
    const courses = new Map<string, Course>();
    for (const subject of subjects) courses.set(subject.name, await course(subject, workbook, rounds));
    measured.push({ cells, parse, courses });
    console.log(table(measured.at(-1)!));
  }
  console.log(await fireRatio(ROOT, folder));
  const said = values.only === undefined ? measured.flatMap(goals) : [];
  for (const { text, met } of said) console.log(`${met ? 'met   ' : 'MISSED'} ${text}`);
  process.exitCode = said.every(({ met }) => met) ? 0 : 1;
} finally {
  rmSync(folder, { recursive: true });
}

function ours(): Subject {
  return {
    name: 'alignbook',
    command: [join(ROOT, 'dist', 'alignbook.cjs'), 'server', '--stdio'],
    language: 'alignbook',
    delay: 0,
    settings: {},
  };
}

/**
 * Installed on first use: it is not part of the package. In a folder of its own, so that the modules of this bench do
 * not load the peer's libraries.
 */
function peer(): Subject {
  const home = join(HERE, 'peer');
  const program = join(home, 'node_modules', 'yaml-language-server', 'bin', 'yaml-language-server');
  if (!existsSync(program))
    execFileSync('npm', ['ci', '--ignore-scripts', '--no-audit', '--no-fund'], { cwd: home, stdio: 'ignore' });
  const schemas = { [pathToFileURL(join(ROOT, 'shared', 'workbook.schema.json')).href]: ['*.alignbook.yaml'] };
  const yaml = {
    schemas,
    validate: true,
    hover: true,
    completion: true,
    schemaStore: { enable: false },
    kubernetesCRDStore: { enable: false },
  };
  return { name: 'yaml server', command: [program, '--stdio'], language: 'yaml', delay: 200, settings: { yaml } };
}

async function emptyServer(): Promise<Subject> {
  const outfile = join(folder, 'empty-server.cjs');
  await build({
    entryPoints: [join(HERE, 'empty-server.ts')],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'cjs',
    target: 'node20',
    minify: true,
    logLevel: 'warning',
  });
  return { name: 'empty server', command: [outfile, '--stdio'], language: 'alignbook', delay: 0, settings: {} };
}

/** The median of three: the first, in a fresh process, is slower, which would make the ratio too favourable. */
function parsed(text: string): number {
  return median(
    Array.from({ length: 3 }, () => {
      const start = performance.now();
      parseAllDocuments(text);
      return performance.now() - start;
    }),
  );
}
