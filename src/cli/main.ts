#!/usr/bin/env node
/**
 * Nothing but the start. Most of a short run is Node compiling the program, function by function as they are called. Where the
 * program was built by this very Node, `.ci/compiled.mjs` has left beside it what that Node made of it, and a fifth of the time is
 * saved; else Node keeps what it can from one call to the next by itself (22.8 and later).
 */
import { readFileSync, statSync } from 'node:fs';
import * as modules from 'node:module';
import { isAbsolute, join } from 'node:path';
import { Script } from 'node:vm';
import * as zlib from 'node:zlib';
import { part } from '../disk/index.ts';

declare const require: (file: './program.cjs' | './server.cjs') => void;
declare const __dirname: string;

/** Bytes; what was compiled has a good million. */
const LARGEST = 16_000_000;

// By itself Node would keep it in the folder for temporary files, which on Linux everybody may write to: what somebody else has put
// there would be run, or, a pipe, waited for.
const { XDG_CACHE_HOME = '', HOME = '' } = process.env;
const own = [XDG_CACHE_HOME, join(HOME, '.cache')].find(isAbsolute);
if (own !== undefined || process.platform === 'win32') modules.enableCompileCache?.(own && join(own, 'alignbook'));
// A file of its own: who checks a workbook does not wait for what only editors need.
if (process.argv[2] === 'server') part('server.cjs', () => require('./server.cjs'));
else part('program.cjs', () => (compiled() ?? (() => require('./program.cjs')))(require));

/**
 * Its name holds what it was made of, the program's last line, so that it is never taken for that of another program; and it ends
 * with its own sum, for Node itself does not look whether it is whole.
 */
function compiled(): ((load: typeof require) => void) | undefined {
  try {
    const filename = join(__dirname, 'program.cjs');
    const source = readFileSync(filename, 'utf8');
    const hash = source.slice(source.lastIndexOf('//') + 2).trim();
    const path = join(__dirname, `program.${hash}.${process.version}.${process.arch}.compiled`);
    const stat = statSync(path);
    // A pipe or a device may have no end.
    if (!stat.isFile() || stat.size > LARGEST) return undefined;
    const file = readFileSync(path);
    const cachedData = file.subarray(0, -4);
    if (zlib.crc32(cachedData) !== file.readUInt32LE(cachedData.length)) return undefined;
    const script = new Script(`(function (require) {${source}\n})`, { filename, cachedData });
    return script.cachedDataRejected === true ? undefined : (script.runInThisContext() as ReturnType<typeof compiled>);
  } catch {
    return undefined;
  }
}
