/**
 * The format for other editors, out of the schemas that read it: a choice of strict objects, one for each kind, so
 * that a stock YAML server completes and reports well. An empty cell is allowed, `x-` keys are the user's, and what
 * is read as text here may be a number there, because YAML makes one of it before any schema sees it.
 */
import * as z from 'zod';
import { createFields } from './fields.ts';
import { KINDS } from '../model/index.ts';
import { CELL_KINDS } from './kinds/index.ts';
import { createCalculator } from './quantities/index.ts';
import { NAME } from './shapes.ts';

const TITLE = 'A cell of an Alignbook workbook, format 1';

/** A JSON Schema (draft 7) of one cell, which is one document of the YAML stream. */
export function workbookSchema(): object {
  const fields = createFields('mm', createCalculator(nothingIsRead));
  const kinds = KINDS.map((kind) => {
    const { $schema: _, ...schema } = z.toJSONSchema(CELL_KINDS[kind].schema(fields), {
      io: 'input',
      target: 'draft-7',
      override,
    });
    return { title: kind, ...schema };
  });
  return {
    $schema: 'http://json-schema.org/draft-07/schema#',
    title: TITLE,
    anyOf: [...kinds, { title: 'empty', type: 'null' }],
  };
}

function nothingIsRead(): never {
  throw new Error('a schema is described here, not read with');
}

interface Overridden {
  readonly zodSchema: z.core.$ZodTypes;
  readonly jsonSchema: z.core.JSONSchema.BaseSchema;
}

function override({ zodSchema, jsonSchema }: Overridden): void {
  const examples = z.globalRegistry.get(zodSchema)?.['examples'];
  if (examples !== undefined) jsonSchema.examples = examples as unknown[];
  if (jsonSchema.type !== 'object') return;
  jsonSchema.patternProperties = { '^x-': {} };
  if (jsonSchema.propertyNames !== undefined) {
    const pattern = (jsonSchema.propertyNames as { pattern?: string }).pattern;
    jsonSchema.propertyNames = pattern === NAME.source ? { pattern: `${pattern}|^x-` } : {};
  }
}
