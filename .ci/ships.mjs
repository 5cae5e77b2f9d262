// Packs the command line, installs it in an empty folder and runs it there on the oldest Node at hand: the one that was
// on this machine before anything was installed. The last line is `N passed, N failed`.
import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'alignbook-'));
try {
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
  console.log(`${runs.length - failed} passed, ${failed} failed`);
  process.exitCode = failed === 0 ? 0 : 1;
} finally {
  rmSync(folder, { recursive: true });
}

/** Returns the program's path in the folder. */
function install() {
  const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
  const stdio = ['ignore', 'ignore', 'inherit'];
  execFileSync(process.execPath, [join(root, '.ci', 'package.mjs')], { stdio });
  execFileSync('npm', ['install', '--offline', '--prefix', folder, `./dist/alignbook-${version}.tgz`], {
    cwd: root,
    stdio,
    shell: process.platform === 'win32',
  });
  return join(folder, 'node_modules', 'alignbook', 'dist', 'alignbook.cjs');
}

function systemNode() {
  const name = process.platform === 'win32' ? 'node.exe' : 'node';
  const folders = (process.env.PATH ?? '').split(delimiter).filter((path) => !path.includes('node_modules'));
  return folders.map((path) => join(path, name)).find(existsSync) ?? process.execPath;
}
