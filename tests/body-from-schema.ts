/** A schema of docs/openapi.json, as far as bodies use it. */
interface Schema {
  $ref?: string;
  type?: string | string[];
  properties?: Record<string, Schema>;
  required?: string[];
  additionalProperties?: boolean | Schema;
  items?: Schema;
  minItems?: number;
  minLength?: number;
  anyOf?: Schema[];
  oneOf?: Schema[];
  allOf?: Schema[];
  enum?: unknown[];
  const?: unknown;
  format?: string;
  pattern?: string;
  minimum?: number;
  exclusiveMinimum?: number;
}

export interface Described {
  paths: Record<string, Record<string, { requestBody?: { content: Record<string, { schema: Schema }> } }>>;
  components: { schemas: Record<string, Schema> };
}

/** Texts that fit the patterns of the vocabulary; the first that fits is taken. */
const TEXTS = ['a1', 'kPa', 'Etc/UTC', '2031-03-04', '1', 'ab'.repeat(32), 'aGk', 'a.csv', 'rimPressure'];

/** The schema of the JSON body that a route takes, if it takes one. */
export function bodySchemaOf(described: Described, method: string, address: string): Schema | undefined {
  const operation = described.paths[address.replaceAll(/:([A-Za-z]+)/g, '{$1}')]?.[method.toLowerCase()];
  return operation?.requestBody?.content['application/json']?.schema;
}

/** The least body that fits a schema: what is required and nothing else, each value the plainest of its kind. */
export function leastOf(described: Described, schema: Schema): unknown {
  const of = (part: Schema) => leastOf(described, part);
  if (schema.$ref !== undefined)
    return of(described.components.schemas[schema.$ref.replace('#/components/schemas/', '')] ?? {});
  if (schema.const !== undefined) return schema.const;
  if (schema.enum) return schema.enum[0];
  const [first] = schema.anyOf ?? schema.oneOf ?? [];
  if (first) return of(first);
  if (schema.allOf) return Object.assign({}, ...schema.allOf.map(of));
  switch ([schema.type].flat()[0]) {
    case 'object':
      return Object.fromEntries((schema.required ?? []).map((name) => [name, of(schema.properties?.[name] ?? {})]));
    case 'array':
      return Array.from({ length: schema.minItems ?? 0 }, () => of(schema.items ?? {}));
    case 'string':
      return textOf(schema);
    case 'number':
    case 'integer':
      return Math.max(schema.minimum ?? 1, (schema.exclusiveMinimum ?? 0) + 1);
    case 'boolean':
      return true;
    default:
      return null;
  }
}

function textOf({ format, pattern, minLength = 1 }: Schema): string {
  if (format === 'date-time') return '2031-03-04T10:00:00Z';
  if (format === 'uri') return 'https://works.example';
  if (format === 'date') return '2031-03-04';
  if (pattern === undefined) return 'a'.repeat(minLength);
  return TEXTS.find((text) => new RegExp(pattern, 'u').test(text)) ?? 'a';
}

/** Every object in a body's schema, with where it stands, that takes fields it does not name. */
export function openObjects(described: Described, schema: Schema, at = ''): string[] {
  if (schema.$ref !== undefined)
    return at.split('/').length > 12
      ? []
      : openObjects(
          described,
          described.components.schemas[schema.$ref.replace('#/components/schemas/', '')] ?? {},
          at,
        );
  const own =
    schema.type === 'object' && schema.properties !== undefined && schema.additionalProperties !== false ? [at] : [];
  const below = [
    ...Object.entries(schema.properties ?? {}).map(([name, part]) => [`${at}/${name}`, part] as const),
    ...(schema.items ? [[`${at}/0`, schema.items] as const] : []),
    ...[...(schema.anyOf ?? []), ...(schema.oneOf ?? []), ...(schema.allOf ?? [])].map((part) => [at, part] as const),
  ];
  return [...own, ...below.flatMap(([place, part]) => openObjects(described, part, place))];
}
