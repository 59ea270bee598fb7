import { type Reader, type Rows, tables } from '@breakbook/records';

/** What a sheet is of, as rows. */
export type SheetSubject = Pick<tables.DocumentSubject, 'lotId' | 'specimenId' | 'runId'>;
export type SheetKind = 'run sheet' | 'specimen record' | 'label sheet';

const INITIALS = { 'run sheet': 'RS', 'specimen record': 'SR', 'label sheet': 'LS' } as const;

/** The number that a kind's sheet of a thing has, such as RS-161-2: the second sheet of run 161. */
export function sheetNumber(kind: SheetKind, key: string, count: number): string {
  return `${INITIALS[kind]}-${key}-${count}`;
}

/** How many sheets of a kind were made of a thing; those that were signed count once. */
export async function sheetsOf(reader: Reader, kind: SheetKind, subject: SheetSubject): Promise<number> {
  const [found] = await reader.manager.query<{ count: number }[]>(
    `select count(*)::integer as count from document_subject subject
     join document on document.lab_id = subject.lab_id and document.id = subject.document_id
     where subject.lab_id = $1 and document.kind = $2 and subject.lot_id = $3
       and subject.specimen_id is not distinct from $4 and subject.run_id is not distinct from $5
       and not exists (select from document_sealing
         where lab_id = document.lab_id and document_id = document.id and draft_id is not null)`,
    [reader.labId, kind, subject.lotId, subject.specimenId, subject.runId],
  );
  return found?.count ?? 0;
}

/** Keeps every other sheet of the same thing waiting until the change ends. */
export async function lockSubject(rows: Rows, { lotId, specimenId, runId }: SheetSubject): Promise<void> {
  if (runId !== null) await rows.lock(tables.Run, runId);
  else if (specimenId !== null) await rows.lock(tables.Specimen, specimenId);
  else await rows.lock(tables.Lot, lotId);
}
