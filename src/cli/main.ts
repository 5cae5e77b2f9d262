#!/usr/bin/env node
/** Nothing but the start: Node keeps the compiled program from one call to the next, where it can (22.8 and later). */
import * as modules from 'node:module';

declare const require: (file: './program.cjs' | './server.cjs') => void;

modules.enableCompileCache?.();
// A file of its own: who checks a workbook does not wait for what only editors need.
if (process.argv[2] === 'server') require('./server.cjs');
else require('./program.cjs');
