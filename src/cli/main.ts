#!/usr/bin/env node
import { writeSync } from 'node:fs';
import { paintFor } from './paint.ts';
import { run } from './run.ts';

declare const ALIGNBOOK_VERSION: string;

process.exitCode = run(process.argv.slice(2), {
  out: (text) => write(1, text),
  error: (text) => write(2, text),
  paint: paintFor(process.stdout, process.env),
}, ALIGNBOOK_VERSION);

/** Synchronous, so that nothing is lost when a pipe is slow; a reader that has gone away (`| head`) is no error. */
function write(descriptor: 1 | 2, text: string): void {
  let rest = Buffer.from(text);
  while (rest.length > 0) {
    try {
      rest = rest.subarray(writeSync(descriptor, rest));
    } catch (problem) {
      const code = problem instanceof Error && 'code' in problem ? problem.code : undefined;
      if (code === 'EPIPE') return;
      if (code !== 'EAGAIN') throw problem;
    }
  }
}
