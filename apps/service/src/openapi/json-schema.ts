import * as vocabulary from '@breakbook/lab';
import { z } from 'zod';

/** A JSON Schema (2020-12), as OpenAPI 3.1 takes it. */
export type JsonSchema = Record<string, unknown>;

declare module 'zod' {
  interface GlobalMeta {
    /** How a schema looks on the wire, where that cannot be told from the schema itself. */
    wire?: JsonSchema;
  }
}

const AT = '#/components/schemas/';

/** Schemas of the vocabulary stand in the description once, under the names they are exported by. */
const NAMED = z.registry<{ id: string }>();
for (const [name, schema] of Object.entries(vocabulary))
  if (schema instanceof z.ZodType) NAMED.add(schema, { id: name });

/** Makes JSON Schemas, and gathers the named ones they refer to. */
export class SchemaGatherer {
  readonly components = new Map<string, JsonSchema>();

  /** Also a schema that is not of the vocabulary may stand under a name. */
  name(schema: z.ZodType, id: string): JsonSchema {
    this.keep(id, this.of(schema, 'output'));
    return { $ref: `${AT}${id}` };
  }

  /** What is sent (`input`) or what is answered (`output`). */
  of(schema: z.ZodType, io: 'input' | 'output'): JsonSchema {
    const made = z.toJSONSchema(schema, {
      io,
      metadata: NAMED,
      // What is declared elsewhere says itself how it looks; for everything else a fault is better than "anything".
      unrepresentable: 'any',
      override: ({ zodSchema, jsonSchema }) => {
        const wire = z.globalRegistry.get(zodSchema)?.wire;
        if (wire) replace(jsonSchema as JsonSchema, wire);
      },
    }) as JsonSchema;
    const { $schema: _, $defs = {}, ...own } = made;
    for (const [id, part] of Object.entries($defs as Record<string, JsonSchema>)) this.keep(id, pointed(part));
    return pointed(own) as JsonSchema;
  }

  private keep(id: string, schema: JsonSchema): void {
    const known = this.components.get(id);
    if (known && JSON.stringify(known) !== JSON.stringify(schema))
      throw new Error(`Two schemas are called ${id}. What is sent and what is answered under one name must be alike.`);
    this.components.set(id, schema);
  }
}

function replace(schema: JsonSchema, by: JsonSchema): void {
  for (const key of Object.keys(schema)) delete schema[key];
  Object.assign(schema, by);
}

/** The same with every reference pointing into the description. */
function pointed<T>(part: T): T {
  if (Array.isArray(part)) return part.map(pointed) as T;
  if (typeof part !== 'object' || part === null) return part;
  return Object.fromEntries(
    Object.entries(part).map(([name, value]) =>
      name === '$ref' && typeof value === 'string' ? [name, value.replace('#/$defs/', AT)] : [name, pointed(value)],
    ),
  ) as T;
}
