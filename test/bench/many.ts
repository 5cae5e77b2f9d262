/** One process, many cells: `parse` them as YAML, or `evaluate` them. Prints the time in ms and the retained memory. */
import { readFileSync } from 'node:fs';
import { parseAllDocuments } from 'yaml';
import { evaluate } from '../../src/evaluation/index.ts';
import { threads } from '../../src/machine/index.ts';
import { createReader, expressions } from '../../src/workbook/index.ts';

const [what, file] = process.argv.slice(2);
const text = readFileSync(file!, 'utf8');
const start = performance.now();
const kept = what === 'parse' ? parsed() : evaluated();
const time = performance.now() - start;
globalThis.gc?.();
process.stdout.write(
  `${JSON.stringify({ time, heap: process.memoryUsage().heapUsed, peak: process.resourceUsage().maxRSS * 1024, kept: kept.count })}\n`,
);

function parsed() {
  const documents = parseAllDocuments(text);
  return { count: documents.length, documents };
}

function evaluated() {
  const reader = createReader({ threads, expressions });
  const workbook = reader.read(text, { file: 'bench.alignbook.yaml', files: new Map() });
  const evaluation = evaluate(workbook.entries);
  return { count: workbook.entries.length, reader, workbook, evaluation };
}
