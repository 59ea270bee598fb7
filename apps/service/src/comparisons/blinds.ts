import { Refusal } from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import { In } from 'typeorm';
import type { SignedInActor } from '../sign-in/signed-in.decorator.js';

/** What is told in the place of what somebody is not to know yet. */
export const HIDDEN = 'hidden until conclusions are locked';

/**
 * The codes of all specimens of which this person is not to know, before conclusions are locked, which is which: items and
 * units of every open comparison that blinds them by any revision that was not declined.
 */
export async function hiddenFrom(reader: Reader, { person }: Pick<SignedInActor, 'person'>): Promise<Set<string>> {
  const found = await reader.manager.query<{ key: string }[]>(
    `select distinct specimen.key
     from comparison_revision revision
     join specimen on specimen.lab_id = revision.lab_id
     where revision.lab_id = $1 and revision.content #> '{blind,blinded}' @> to_jsonb($2::text)
       and not exists (select from comparison_decision
         where lab_id = revision.lab_id and revision_id = revision.id and decision = 'declined')
       and not exists (select from comparison_withdrawal
         where lab_id = revision.lab_id and comparison_id = revision.record_id)
       and not exists (select from comparison_conclusion
         where lab_id = revision.lab_id and comparison_id = revision.record_id)
       and (
         exists (select from comparison_item
           where lab_id = revision.lab_id and revision_id = revision.id and specimen_id = specimen.id)
         or exists (select from reference_unit
           where lab_id = revision.lab_id and specimen_id = specimen.id
             and revision_id in (revision.reference_revision_id, revision.alternative_revision_id))
         or exists (select from comparison_lot
           where lab_id = revision.lab_id and revision_id = revision.id and lot_id = specimen.lot_id)
       )`,
    [reader.labId, person],
  );
  return new Set(found.map(({ key }) => key));
}

/** Refuses what would tell somebody of a lot's specimens which is which. `what` is told, such as "The package of lot X". */
export async function refuseBlinded(
  reader: Reader,
  by: Pick<SignedInActor, 'person'>,
  lot: string,
  what: string,
): Promise<void> {
  const hidden = [...(await hiddenFrom(reader, by))];
  if (hidden.length === 0) return;
  const specimens = await reader.find(tables.Specimen, { key: In(hidden) });
  const named = await reader.maybe(tables.Lot, { key: lot });
  const one = specimens.find(({ lotId }) => lotId === named?.id);
  if (one) throw blindedFrom(what, one.key);
}

/** Refuses an entry of the ledger that says of specimens what is hidden from somebody. */
export async function refuseBlindedEntry(
  reader: Reader,
  by: Pick<SignedInActor, 'person'>,
  { sequence, text }: { sequence: number; text: string },
): Promise<void> {
  const hidden = [...(await hiddenFrom(reader, by))];
  if (hidden.length === 0) return;
  const [told] = await reader.manager.query<{ key: string }[]>(
    `select specimen.key from specimen
     where specimen.lab_id = $1 and specimen.key = any($2) and (
       exists (select from specimen_version
         where lab_id = specimen.lab_id and record_id = specimen.id and position(id::text in $3) > 0)
       or exists (select from custody_event
         where lab_id = specimen.lab_id and specimen_id = specimen.id and position(id::text in $3) > 0)
       or exists (select from reference_unit
         where lab_id = specimen.lab_id and specimen_id = specimen.id and position(revision_id::text in $3) > 0)
     ) limit 1`,
    [reader.labId, hidden, text],
  );
  if (told) throw blindedFrom(`Entry ${sequence} of the ledger`, told.key);
}

/** What is refused to whoever examines this specimen blind. */
export function blindedFrom(what: string, specimen: string): Refusal {
  return new Refusal({
    code: 'auth.forbidden',
    detail: `${what} would tell which item is which, and you examine specimen ${specimen} blind: that is ${HIDDEN}.`,
    action: 'Wait until conclusions are locked, or ask somebody who is not blinded.',
  });
}
