import type { OpenApiDocument, Operation } from './document.js';
import type { JsonSchema } from './json-schema.js';

const AT = '#/components/schemas/';

/**
 * The interface's description as TypeScript types: one for each named schema, and `Operations`, which says of each
 * method and address what it takes and what it answers. Only types: a program that is built with them sends and reads
 * the same as one that is not.
 */
export function typedClient({ paths, components }: OpenApiDocument): string {
  const imports = new Map<string, Set<string>>();
  const types = new TypeWriter(imports);
  const named = Object.entries(components.schemas).map(
    ([name, schema]) => `export type ${name} = ${types.of(schema as JsonSchema)};`,
  );
  const operations = Object.entries(paths).flatMap(([address, methods]) =>
    Object.entries(methods).map(
      ([method, operation]) => `  '${method.toUpperCase()} ${address}': ${operationType(operation, types)};`,
    ),
  );
  return [
    '// Made from docs/openapi.json by "npm run openapi", and never edited.',
    ...[...imports].map(([from, names]) => `import type { ${[...names].sort().join(', ')} } from '${from}';`),
    '',
    ...named,
    '',
    '/** What each method of each address takes, and what it answers. */',
    'export interface Operations {',
    ...operations,
    '}',
    '',
  ].join('\n');
}

function operationType({ parameters = [], requestBody, responses }: Operation, types: TypeWriter): string {
  const parts = [
    partOf('path', parameters, types),
    partOf('query', parameters, types),
    partOf('headers', parameters, types),
    requestBody ? `body: ${types.content(requestBody.content)}` : '',
    `answer: ${types.content(successOf(responses)?.content)}`,
  ];
  return `{ ${parts.filter(Boolean).join('; ')} }`;
}

function partOf(
  part: 'path' | 'query' | 'headers',
  parameters: Operation['parameters'] = [],
  types: TypeWriter,
): string {
  const place = part === 'headers' ? 'header' : part;
  const own = parameters.filter((one) => one.in === place);
  if (own.length === 0) return '';
  const members = own.map(
    ({ name, required, schema }) => `${memberName(name)}${required ? '' : '?'}: ${types.of(schema as JsonSchema)}`,
  );
  return `${part}${own.some(({ required }) => required) ? '' : '?'}: { ${members.join('; ')} }`;
}

function successOf(responses: Operation['responses']): Operation['responses'][string] | undefined {
  return Object.entries(responses).find(([status]) => status.startsWith('2'))?.[1];
}

/** JSON Schema, as far as this interface's description uses it, in TypeScript. What it does not know it refuses. */
class TypeWriter {
  constructor(private readonly imports: Map<string, Set<string>>) {}

  content(content: Record<string, { schema: unknown }> | undefined): string {
    const [type, first] = Object.entries(content ?? {})[0] ?? [];
    if (type === undefined || !first) return 'undefined';
    if (type === 'multipart/form-data') return 'FormData';
    if (type === 'application/json') return this.of(first.schema as JsonSchema);
    return type === 'text/event-stream' ? 'string' : 'Blob';
  }

  of(schema: JsonSchema): string {
    if (typeof schema['x-type'] === 'string') return this.imported(schema['x-type']);
    if (typeof schema.$ref === 'string') return schema.$ref.replace(AT, '');
    if ('const' in schema) return JSON.stringify(schema.const);
    if (Array.isArray(schema.enum)) return schema.enum.map((one) => JSON.stringify(one)).join(' | ');
    const several = schema.anyOf ?? schema.oneOf;
    if (Array.isArray(several)) return this.joined(several as JsonSchema[], ' | ');
    if (Array.isArray(schema.type)) return schema.type.map((type) => this.plain({ ...schema, type })).join(' | ');
    if (Array.isArray(schema.allOf)) return this.joined(schema.allOf as JsonSchema[], ' & ');
    return this.plain(schema);
  }

  private plain(schema: JsonSchema): string {
    switch (schema.type) {
      case 'string':
        return 'string';
      case 'number':
      case 'integer':
        return 'number';
      case 'boolean':
        return 'boolean';
      case 'null':
        return 'null';
      case 'array':
        return this.list(schema);
      case 'object':
        return this.object(schema);
      case undefined:
        return 'unknown';
      default:
        throw new Error(`This kind of schema has no type yet: ${JSON.stringify(schema)}`);
    }
  }

  private list({ items, prefixItems }: JsonSchema): string {
    if (Array.isArray(prefixItems)) return `[${prefixItems.map((one) => this.of(one as JsonSchema)).join(', ')}]`;
    return `(${this.of((items ?? {}) as JsonSchema)})[]`;
  }

  private object({ properties = {}, required = [], additionalProperties }: JsonSchema): string {
    const members = Object.entries(properties as Record<string, JsonSchema>).map(
      ([name, schema]) => `${memberName(name)}${(required as string[]).includes(name) ? '' : '?'}: ${this.of(schema)}`,
    );
    if (additionalProperties === false && members.length === 0) return 'Record<string, never>';
    if (additionalProperties === false) return `{ ${members.join('; ')} }`;
    const others = typeof additionalProperties === 'object' ? this.of(additionalProperties as JsonSchema) : 'unknown';
    const open = `{ [name: string]: ${others} }`;
    return members.length > 0 ? `{ ${members.join('; ')} } & ${open}` : open;
  }

  private joined(schemas: JsonSchema[], by: string): string {
    return `(${schemas.map((one) => this.of(one)).join(by)})`;
  }

  /** A type that another room declares, as `@breakbook/figures MarginStripInput`. */
  private imported(where: string): string {
    const [from = '', name = ''] = where.split(' ');
    this.imports.set(from, (this.imports.get(from) ?? new Set()).add(name));
    return name;
  }
}

function memberName(name: string): string {
  return /^[A-Za-z_$][\w$]*$/.test(name) ? name : `'${name}'`;
}
