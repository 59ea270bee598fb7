import { CsvError, parse } from 'csv-parse/sync';
import { z } from 'zod';
import { cellAsWritten, harmlessCell } from './harmless-cells.js';

/** One column of a table, as a Table Schema of the Data Package standard describes it. */
export const TableField = z.strictObject({
  name: z.string().regex(/^[a-z][A-Za-z0-9]{0,39}$/),
  type: z.enum(['string', 'number', 'integer', 'boolean', 'datetime', 'date']),
  description: z.string().min(1),
  constraints: z.strictObject({ required: z.literal(true) }).optional(),
});
export type TableField = z.infer<typeof TableField>;

export const TableSchema = z.strictObject({
  fields: z.array(TableField).min(1),
  primaryKey: z.array(z.string()).min(1).optional(),
  missingValues: z.tuple([z.literal('')]),
});
export type TableSchema = z.infer<typeof TableSchema>;

/** What stands in a cell; undefined is an empty one. */
export type CellValue = string | number | boolean | undefined;

/** A table of named columns, ready to be written. */
export interface DataTable {
  name: string;
  title: string;
  schema: TableSchema;
  rows: Record<string, CellValue>[];
}

/** The table as CSV after RFC 4180 with a header: UTF-8, lines ended by CR LF, text made harmless for spreadsheets. */
export function formatTable({ schema, rows }: DataTable): string {
  const names = schema.fields.map(({ name }) => name);
  const lines = rows.map((row) => schema.fields.map((field) => quoted(written(field, row[field.name]))).join(','));
  return [names.join(','), ...lines].map((line) => `${line}\r\n`).join('');
}

function written(field: TableField, value: CellValue): string {
  if (value === undefined) return '';
  const text = field.type === 'string' ? harmlessCell(String(value)) : String(value);
  if (text !== '' && FORMS[field.type].test(text)) return text;
  throw new Error(`A cell of ${field.name} must be ${field.type}; got "${text.slice(0, 40)}".`);
}

/** An empty text would read as nothing said, so it cannot be written. */
const FORMS: Record<TableField['type'], RegExp> = {
  string: /^.+$/s,
  number: /^-?\d+(\.\d+)?(e[+-]?\d+)?$/,
  integer: /^-?\d+$/,
  boolean: /^(true|false)$/,
  datetime: /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)$/,
  date: /^\d{4}-\d\d-\d\d$/,
};

function quoted(cell: string): string {
  return /[",\r\n]|^\s|\s$/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
}

/** Does the file fit its schema? Undefined where it does; else the first thing that does not. */
export function whyNoTable(csv: string, schema: TableSchema): string | undefined {
  const read = rowsIn(csv);
  if (typeof read === 'string') return read;
  const [header, ...rows] = read;
  const names = schema.fields.map(({ name }) => name);
  if (header?.join(',') !== names.join(',')) return `line 1 must be ${names.join(',')}`;
  const seen = new Set<string>();
  for (const [index, row] of rows.entries()) {
    const wrong = schema.fields.find((field, column) => !fits(field, row[column] ?? ''));
    if (wrong)
      return `row ${index + 2}: ${wrong.name} must be ${wrong.type}${wrong.constraints ? ' and not empty' : ''}`;
    if (!schema.primaryKey) continue;
    const key = JSON.stringify(schema.primaryKey.map((name) => row[names.indexOf(name)]));
    if (seen.has(key)) return `row ${index + 2} has the ${schema.primaryKey.join(' and ')} of a row before it`;
    seen.add(key);
  }
  return undefined;
}

/** The rows of a table as text, cells as they were before they were made harmless. */
export function readTable(csv: string): Record<string, string>[] {
  const read = rowsIn(csv);
  if (typeof read === 'string') throw new Error(read);
  const [header = [], ...rows] = read;
  return rows.map((row) => Object.fromEntries(header.map((name, column) => [name, cellAsWritten(row[column] ?? '')])));
}

function rowsIn(csv: string): string[][] | string {
  try {
    return parse(csv, { relaxColumnCount: false, recordDelimiter: '\r\n', maxRecordSize: 1024 * 1024 });
  } catch (error) {
    if (error instanceof CsvError) return error.message;
    throw error;
  }
}

function fits({ type, constraints }: TableField, cell: string): boolean {
  return cell === '' ? constraints === undefined : FORMS[type].test(cell);
}
