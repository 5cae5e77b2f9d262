// The parts of the test, side by side in two lanes. What a part prints comes whole when it ends, with its own count; a
// part that ran nothing has failed.
import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { downloadAndUnzipVSCode } from '@vscode/test-electron';
import { installScreen } from '../test/workbench/editor/display.ts';
import { installBrowser, installNeovim, installServer } from '../test/workbench/editor/install.ts';

const root = fileURLToPath(new URL('..', import.meta.url));
const bin = join(root, 'node_modules', '.bin');
const output = join(root, 'test', 'output');
/** Sizes of the long tests; `npm run test:deep` takes more. */
const SIZES = { COUNT: '50', MACHINES: '10', ROUTES: '96', SURVEYS: '48', DRAWS: '300000' };
mkdirSync(output, { recursive: true });
const environment = { ...process.env, PATH: [bin, process.env.PATH].join(delimiter), FORCE_COLOR: '0', ...SIZES };

console.log(`node ${process.version}`);
const begun = Date.now();
const lacks = {
  workbench: lackOf(() => [installBrowser(), installServer()]),
  neovim: lackOf(installNeovim),
  desktop: await downloadAndUnzipVSCode({
    version: oldestEditor(),
    cachePath: join(output, 'vscode'),
    timeout: 60_000,
  }).then(
    (executable) => {
      environment.VSCODE = executable;
      return lackOf(installScreen);
    },
    (problem) => `desktop VS Code cannot be downloaded here (${problem.message})`,
  ),
};
const installed = Date.now();
console.log(`editors and browser installed, or not, in ${seconds(begun)} s`);

// One lane has the editors, whose tests wait for what is on the screen and suffer where others take their processor,
// and the parts that pack: these write to one folder. The other has the rest, each in one process, the longest first;
// the first lane helps with them when it has done its own.
const [editors, rest] = [
  [
    ['house', () => vitest('house')],
    ['what ships, on the Node of this machine', ships],
    ['workbench', () => lacking(lacks.workbench) ?? vitest('workbench')],
    ['workbench without Node', () => lacking(lacks.workbench) ?? vitest('web')],
    ['workbench of the desktop', () => lacking(lacks.desktop, 'may lack') ?? vitest('desktop')],
    ['neovim', () => lacking(lacks.neovim) ?? vitest('neovim')],
  ],
  [
    ['types', types],
    ...['unit', 'logs', 'program', 'page', 'deep', 'simulation', 'server', 'published'].map((name) => [
      name,
      () => vitest(name),
    ]),
  ],
];
const results = (await Promise.all([lane(editors, rest), lane(rest)])).flat();
const sum = (of) => results.reduce((total, result) => total + of(result), 0);
const failed = sum((result) => result.failed);
console.log(`\nall parts in ${seconds(installed)} s`);
console.log(`${sum(({ passed }) => passed)} passed, ${failed} failed, ${sum(({ skipped }) => skipped)} skipped`);
process.exit(failed === 0 ? 0 : 1);

/** Takes its own parts from their list, one after the other, then those of another list. */
async function lane(own, others = []) {
  const results = [];
  for (;;) {
    const next = own.shift() ?? others.shift();
    if (!next) return results;
    results.push(await part(...next));
  }
}

async function part(name, work) {
  const start = Date.now();
  const { passed, failed, skipped, said } = await work();
  const none = passed + failed + skipped === 0 ? 1 : 0;
  console.log(
    `\n== ${name}\n${said.trimEnd()}\n${name}: ${passed} passed, ${failed + none} failed, ${skipped} skipped${none ? ' (nothing ran, which is a failure)' : ''}, ${seconds(start)} s`,
  );
  return { passed, failed: failed + none, skipped };
}

/** Each folder is one compilation; all are compiled by one process. */
async function types() {
  const { references } = JSON.parse(readFileSync(join(root, 'tsconfig.json'), 'utf8'));
  const { status, said } = await run('typescript/bin/tsc', '-b', '--verbose', '--pretty', 'false');
  const compiled = references.filter(({ path }) => said.includes(`'${path}/tsconfig.json'`));
  const wrong = compiled.filter(({ path }) => new RegExp(`^${path}/[^(]+\\(\\d+,\\d+\\): error`, 'm').test(said));
  const failed = references.length - compiled.length + wrong.length;
  return {
    passed: references.length - failed,
    failed: status === 0 ? failed : Math.max(1, failed),
    skipped: 0,
    said: said.replace(/^.*(?:Project '|Building project|Projects in this build|^ {4}\* ).*\n/gm, ''),
  };
}

async function vitest(project) {
  const report = join(output, `${project}.json`);
  rmSync(report, { force: true });
  const { status, said } = await run(
    'vitest/vitest.mjs',
    'run',
    '--project',
    project,
    '--maxWorkers=1',
    '--reporter=default',
    '--reporter=json',
    `--outputFile=${report}`,
  );
  if (!existsSync(report)) return { passed: 0, failed: 1, skipped: 0, said };
  const { numPassedTests, numFailedTests, numPendingTests, numTodoTests } = JSON.parse(readFileSync(report, 'utf8'));
  // A file that cannot be loaded fails without a test of its own.
  const failed = status === 0 ? numFailedTests : Math.max(1, numFailedTests);
  return { passed: numPassedTests, failed, skipped: numPendingTests + numTodoTests, said };
}

/**
 * The installed npm package with the oldest Node at hand: the one that was on this machine before anything was
 * installed.
 */
async function ships() {
  const { status, said } = await run('../.ci/ships.mjs');
  const [, passed, failed] = /^(\d+) passed, (\d+) failed$/m.exec(said) ?? [];
  if (passed === undefined) return { passed: 0, failed: 1, skipped: 0, said };
  return {
    passed: Number(passed),
    failed: status === 0 ? Number(failed) : Math.max(1, Number(failed)),
    skipped: 0,
    said,
  };
}

/**
 * Runs a package's program on this Node, by its path in `node_modules`: the scripts in `.bin` look for another Node.
 */
function run(program, ...words) {
  const child = spawn(process.execPath, [join(root, 'node_modules', program), ...words], {
    cwd: root,
    env: environment,
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let said = '';
  for (const stream of [child.stdout, child.stderr])
    stream.setEncoding('utf8').on('data', (text) => {
      said += text;
    });
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (status) => resolve({ status, said }));
  });
}

/** Why it cannot be had; nothing where it was installed. */
function lackOf(install) {
  try {
    install();
    return undefined;
  } catch (problem) {
    return problem.message.trim().split('\n')[0];
  }
}

/** A part that is not run for want of something: on a machine that is for testing alone, a failure. */
function lacking(reason, may) {
  if (reason === undefined) return undefined;
  const isFailure = process.env.CI === 'true' && may === undefined;
  return { passed: 0, failed: isFailure ? 1 : 0, skipped: isFailure ? 0 : 1, said: `Not run: ${reason}` };
}

/** The oldest that the extension says it runs in. */
function oldestEditor() {
  return JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')).engines.vscode.replace('^', '');
}

function seconds(since) {
  return Math.round((Date.now() - since) / 1000);
}
