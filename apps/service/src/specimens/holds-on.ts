import type { Reader } from '@breakbook/records';

/** Numbers of the legal holds in force on each of these specimens, by their ids; on itself, or on its lot. */
export async function holdsOn(reader: Reader, specimenIds: readonly string[]): Promise<Map<string, number[]>> {
  const found = await reader.manager.query<{ id: string; number: number }[]>(
    `select specimen.id, hold.number from specimen
     join legal_hold hold on hold.lab_id = specimen.lab_id
     where specimen.lab_id = $1 and specimen.id = any($2)
       and not exists (select from legal_hold_lifting where lab_id = hold.lab_id and legal_hold_id = hold.id)
       and (
         exists (select from legal_hold_lot
           where lab_id = hold.lab_id and legal_hold_id = hold.id and lot_id = specimen.lot_id)
         or exists (select from legal_hold_specimen
           where lab_id = hold.lab_id and legal_hold_id = hold.id and specimen_id = specimen.id)
       )
     order by hold.number`,
    [reader.labId, specimenIds],
  );
  const holds = new Map<string, number[]>();
  for (const { id, number } of found) holds.set(id, [...(holds.get(id) ?? []), number]);
  return holds;
}

/** The legal holds in force on a lot or on any specimen of it. */
export function legalHoldsOf(reader: Reader, lotId: string): Promise<{ number: number; reference: string }[]> {
  return reader.manager.query(
    `select hold.number, hold.reference from legal_hold hold
     where hold.lab_id = $1
       and not exists (select from legal_hold_lifting where lab_id = hold.lab_id and legal_hold_id = hold.id)
       and (
         exists (select from legal_hold_lot where lab_id = hold.lab_id and legal_hold_id = hold.id and lot_id = $2)
         or exists (select from legal_hold_specimen named
           join specimen on specimen.lab_id = named.lab_id and specimen.id = named.specimen_id
           where named.lab_id = hold.lab_id and named.legal_hold_id = hold.id and specimen.lot_id = $2)
       )
     order by hold.number`,
    [reader.labId, lotId],
  );
}
