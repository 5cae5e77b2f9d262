/** The floor: a program that reads a workbook and only parses it as YAML. */
import { readFileSync } from 'node:fs';
import { parseAllDocuments } from 'yaml';

const documents = parseAllDocuments(readFileSync(process.argv[2]!, 'utf8'));
process.stdout.write(`${documents.length}\n`);
