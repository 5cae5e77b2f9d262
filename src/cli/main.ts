#!/usr/bin/env node
/**
 * The start only. Compiling the program takes most of a short run. Where this same Node built the program,
 * `.ci/compiled.mjs` has left its compiled code beside it, which saves a fifth of the time; otherwise Node caches what
 * it can itself (22.8 and later).
 */
import { readFileSync, statSync } from 'node:fs';
import * as modules from 'node:module';
import { isAbsolute, join } from 'node:path';
import { Script } from 'node:vm';
import * as zlib from 'node:zlib';
import { part } from '../disk/index.ts';

declare const require: (file: './program.cjs' | './server.cjs') => void;
declare const __dirname: string;

/** Bytes; the compiled code has a good million. */
const LARGEST = 16_000_000;

// By default Node would cache in the folder for temporary files, which on Linux everybody may write to: a file that
// another user put there would be executed, or, if it is a pipe, waited for.
const { XDG_CACHE_HOME = '', HOME = '' } = process.env;
const own = [XDG_CACHE_HOME, join(HOME, '.cache')].find(isAbsolute);
if (own !== undefined || process.platform === 'win32') modules.enableCompileCache?.(own && join(own, 'alignbook'));
// A file of its own, so that the command line does not load what only editors need.
if (process.argv[2] === 'server') part('server.cjs', () => require('./server.cjs'));
else part('program.cjs', () => (compiled() ?? (() => require('./program.cjs')))(require));

/**
 * The file's name contains the program's last line, a hash, so that it never fits another program. It ends with a
 * checksum, because Node does not check that it is complete.
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
