// The parts of the test, one after the other. Each prints its own count; a part that ran nothing has failed.
import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { downloadAndUnzipVSCode } from '@vscode/test-electron';

const root = fileURLToPath(new URL('..', import.meta.url));
const bin = join(root, 'node_modules', '.bin');
const output = join(root, 'test', 'output');
mkdirSync(output, { recursive: true });
const environment = { ...process.env, PATH: [bin, process.env.PATH].join(delimiter), FORCE_COLOR: '0' };

console.log(`node ${process.version}`);
const results = [
  part('types', types),
  part('unit', () => vitest('unit')),
  part('program', () => vitest('program')),
  part('server', () => vitest('server')),
  part('deep', () => vitest('deep')),
  part('published', () => vitest('published')),
  part('simulation', () => vitest('simulation')),
  part('house', () => vitest('house')),
  part('neovim', () => vitest('neovim')),
  part('workbench', () => vitest('workbench')),
  part('workbench without Node', () => vitest('web')),
  part('workbench of the desktop', await desktop()),
  part('what ships, on the Node of this machine', ships),
];
const sum = (of) => results.reduce((total, result) => total + of(result), 0);
const failed = sum(({ failed }) => failed);
console.log(`${sum(({ passed }) => passed)} passed, ${failed} failed, ${sum(({ skipped }) => skipped)} skipped`);
process.exit(failed === 0 ? 0 : 1);

function part(name, work) {
  console.log(`\n== ${name}`);
  const { passed, failed, skipped, reason } = work();
  if (reason) console.log(reason);
  const none = passed + failed === 0 && !reason ? 1 : 0;
  console.log(
    `${name}: ${passed} passed, ${failed} failed, ${skipped} skipped${none ? ' (nothing ran, which is a failure)' : ''}`,
  );
  return { passed, failed: failed + none, skipped };
}

/** Each folder of the house is one compilation. */
function types() {
  const { references } = JSON.parse(readFileSync(join(root, 'tsconfig.json'), 'utf8'));
  const failed = references.filter(({ path }) => run('typescript/bin/tsc', '-b', path) !== 0).length;
  return { passed: references.length - failed, failed, skipped: 0 };
}

function vitest(project) {
  const report = join(output, `${project}.json`);
  rmSync(report, { force: true });
  const status = run(
    'vitest/vitest.mjs',
    'run',
    '--project',
    project,
    '--reporter=default',
    '--reporter=json',
    `--outputFile=${report}`,
  );
  if (!existsSync(report)) return { passed: 0, failed: 1, skipped: 0 };
  const { numPassedTests, numFailedTests, numPendingTests, numTodoTests } = JSON.parse(readFileSync(report, 'utf8'));
  // A file that cannot be loaded fails without a test of its own.
  const failed = status === 0 ? numFailedTests : Math.max(1, numFailedTests);
  return { passed: numPassedTests, failed, skipped: numPendingTests + numTodoTests };
}

/** Runs a package's program on this Node: the scripts in `.bin` look for another, and Windows cannot spawn them. */
function run(program, ...words) {
  return spawnSync(process.execPath, [join(root, 'node_modules', program), ...words], {
    cwd: root,
    env: environment,
    stdio: 'inherit',
  }).status;
}

/** The same suite in desktop VS Code, where that can be downloaded. */
async function desktop() {
  try {
    environment.VSCODE = await downloadAndUnzipVSCode({
      version: oldestEditor(),
      cachePath: join(root, 'test', 'output', 'vscode'),
      timeout: 60_000,
    });
  } catch (problem) {
    return () => ({
      passed: 0,
      failed: 0,
      skipped: 1,
      reason: `Not run: desktop VS Code cannot be downloaded here (${problem.message}).`,
    });
  }
  return () => vitest('desktop');
}

/** The oldest that the extension says it runs in. */
function oldestEditor() {
  return JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')).engines.vscode.replace('^', '');
}

/** The installed npm package with the oldest Node at hand: the one that was on this machine before anything was installed. */
function ships() {
  const node = systemNode();
  const program = install();
  console.log(`${node} ${execFileSync(node, ['--version'], { encoding: 'utf8' }).trim()}`);
  const examples = readdirSync(join(root, 'examples')).filter((file) => file.endsWith('.alignbook.yaml'));
  const runs = [
    [['--version'], 0],
    [['schema'], 0],
    [['check', 'no-such-file'], 2],
    ...examples.map((file) => [['check', `examples/${file}`], file.startsWith('mistakes') ? 1 : 0]),
    ...examples.map((file) => [['next', '--json', `examples/${file}`], 0]),
  ];
  const failed = runs.filter(([command, expected]) => {
    const { status, stderr } = spawnSync(node, [program, ...command], { cwd: root, encoding: 'utf8', maxBuffer: 1e8 });
    if (status !== expected) console.log(`alignbook ${command.join(' ')}: exit ${status}, not ${expected}\n${stderr}`);
    return status !== expected;
  }).length;
  return { passed: runs.length - failed, failed, skipped: 0 };
}

/** Packs the command line and installs it in an empty folder; returns its path there. */
function install() {
  const folder = mkdtempSync(join(tmpdir(), 'alignbook-'));
  process.on('exit', () => rmSync(folder, { recursive: true }));
  const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
  const stdio = ['ignore', 'ignore', 'inherit'];
  execFileSync(process.execPath, [join(root, '.ci', 'package.mjs')], { env: environment, stdio });
  execFileSync('npm', ['install', '--offline', '--prefix', folder, `./dist/alignbook-${version}.tgz`], {
    cwd: root,
    stdio,
    shell: process.platform === 'win32',
  });
  return join(folder, 'node_modules', 'alignbook', 'dist', 'alignbook.cjs');
}

function systemNode() {
  const name = process.platform === 'win32' ? 'node.exe' : 'node';
  const folders = (process.env.PATH ?? '').split(delimiter).filter((folder) => !folder.includes('node_modules'));
  return folders.map((folder) => join(folder, name)).find(existsSync) ?? process.execPath;
}
