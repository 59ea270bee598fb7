import { Refusal } from '@breakbook/lab';
import { type Noun, type Reader, type Table, tables } from '@breakbook/records';
import { parameterProblem } from '../http/queried-by.js';
import { SUBJECTS, type SubjectKind } from './attachment-answers.js';

type Columns = Pick<tables.Attachment, 'lotId' | 'specimenId' | 'runId' | 'rigId'>;

const TABLES: Record<SubjectKind, { table: Table<Noun>; column: keyof Columns }> = {
  lot: { table: tables.Lot, column: 'lotId' },
  specimen: { table: tables.Specimen, column: 'specimenId' },
  run: { table: tables.Run, column: 'runId' },
  rig: { table: tables.Rig, column: 'rigId' },
};

/** The one thing an address names, as the column that points at it; undefined where it names none. */
export async function subjectNamed(
  reader: Reader,
  asked: Record<SubjectKind, string | undefined>,
): Promise<{ kind: SubjectKind; column: keyof Columns; id: string } | undefined> {
  const [kind, ...others] = SUBJECTS.filter((one) => asked[one] !== undefined);
  if (kind === undefined) return undefined;
  if (others.length > 0)
    throw new Refusal(others.map((one) => parameterProblem(one, `stands beside ${kind}. Name one of them.`)));
  const { table, column } = TABLES[kind];
  const found = await reader.maybe(table, { key: asked[kind] ?? '' });
  if (!found) throw new Refusal(parameterProblem(kind, 'names what is not in this lab. Check the name.', asked[kind]));
  return { kind, column, id: found.id };
}

/** What a photo belongs to, by its name. */
export async function subjectOf(reader: Reader, row: tables.Attachment): Promise<{ kind: SubjectKind; key: string }> {
  for (const kind of SUBJECTS) {
    const { table, column } = TABLES[kind];
    const id = row[column];
    if (id !== null) return { kind, key: (await reader.one(table, id)).key };
  }
  throw new Error(`Attachment ${row.number} belongs to nothing, which the database does not let be.`);
}
