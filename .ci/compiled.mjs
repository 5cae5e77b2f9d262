// Leaves beside the program, for `src/cli/main.ts`, what this Node compiled of it while it did what people most often
// ask for. Another Node does not take it, and compiles for itself.
import { createHash } from 'node:crypto';
import { appendFileSync, readFileSync, readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import { Script } from 'node:vm';
import * as zlib from 'node:zlib';

// Before 20.15 Node cannot tell whether the file is whole: then there is none.
if (zlib.crc32 === undefined) process.exit(0);

const filename = fileURLToPath(new URL('../dist/program.cjs', import.meta.url));
const folder = new URL('../dist/', import.meta.url);
const example = (name) => fileURLToPath(new URL(`../examples/${name}.alignbook.yaml`, import.meta.url));
// What is asked again and again at the machine; the rest of the program is asked once a visit, and every kilobyte takes
// its time to read.
const ASKED = [
  ['check', example('1-full-service')],
  ['next', example('1-full-service'), example('2-new-tube'), example('3-unknown-mount')],
];

for (const file of readdirSync(folder)) if (file.endsWith('.compiled')) rmSync(new URL(file, folder));
const hash = createHash('sha256').update(readFileSync(filename)).digest('hex').slice(0, 16);
appendFileSync(filename, `//${hash}\n`);
// Wrapped as `main.ts` does: a letter's difference, and it is another script.
const script = new Script(`(function (require) {${readFileSync(filename, 'utf8')}\n})`, { filename });
const { argv, exit } = process;
process.exit = () => undefined;
for (const words of ASKED) {
  process.argv = [argv[0], filename, ...words];
  script.runInThisContext()(createRequire(filename));
}
// Whole or not at all, and with a sum by which `main.ts` sees that nothing has happened to it.
const data = script.createCachedData();
const half = new URL('program.half', folder);
try {
  writeFileSync(half, Buffer.concat([data, sumOf(data)]));
  renameSync(half, new URL(`program.${hash}.${process.version}.${process.arch}.compiled`, folder));
} finally {
  rmSync(half, { force: true });
}
exit(0);

function sumOf(of) {
  const sum = Buffer.alloc(4);
  sum.writeUInt32LE(zlib.crc32(of));
  return sum;
}
