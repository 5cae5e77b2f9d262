/**
 * The schemas of all kinds, each built at the first cell of its kind: building all of them costs more than reading a
 * short workbook.
 */
import * as z from 'zod';
import type { Kind, Units } from '../model/index.ts';
import { createFields } from './fields.ts';
import { CELL_KINDS, common, type Common } from './kinds/index.ts';
import type { Calculator } from './quantities/index.ts';

export type SchemaOf = (kind: Kind, units: Units) => z.ZodType;

export function createSchemas(calculator: Calculator): SchemaOf {
  // By default zod generates and compiles a function for every schema: slower for a typical workbook, and forbidden
  // where a page may not compile code from text.
  z.config({ jitless: true });
  const schemas = { mm: schemasIn('mm', calculator), in: schemasIn('in', calculator) };
  return (kind, units) => schemas[units](kind);
}

function schemasIn(units: Units, calculator: Calculator): (kind: Kind) => z.ZodType {
  const fields = createFields(units, calculator);
  let shared: Common | undefined;
  const built = new Map<Kind, z.ZodType>();
  return (kind) => {
    shared ??= common(fields);
    let schema = built.get(kind);
    if (schema === undefined) built.set(kind, (schema = CELL_KINDS[kind].schema(shared, fields)));
    return schema;
  };
}
