/**
 * The schemas of all kinds, each built at the first cell of its kind: building all of them costs more than reading a
 * short workbook.
 */
import * as z from 'zod';
import type { Kind, Units } from '../model/index.ts';
import { createFields } from './fields.ts';
import { CELL_KINDS } from './kinds/index.ts';
import type { Calculator } from './quantities/index.ts';

export type SchemaOf = (kind: Kind, units: Units) => z.ZodType;

export function createSchemas(calculator: Calculator): SchemaOf {
  // By default zod generates and compiles a function for every schema: slower for a typical workbook, and forbidden
  // where a page may not compile code from text.
  z.config({ jitless: true });
  const fields = { mm: createFields('mm', calculator), in: createFields('in', calculator) };
  const built = new Map<string, z.ZodType>();
  return (kind, units) => {
    const key = `${kind} ${units}`;
    let schema = built.get(key);
    if (schema === undefined) built.set(key, (schema = CELL_KINDS[kind].schema(fields[units])));
    return schema;
  };
}
