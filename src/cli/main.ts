#!/usr/bin/env node
/** Nothing but the start: Node keeps the compiled program from one call to the next, where it can (22.8 and later). */
import * as modules from 'node:module';

declare const require: (file: './program.cjs') => void;

modules.enableCompileCache?.();
require('./program.cjs');
