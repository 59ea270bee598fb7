import { Refusal } from '@breakbook/lab';
import { type Actor, newId, type Records, type Rows, tables } from '@breakbook/records';

/** The program that acts where nobody is signed in: it loads the demonstration and gives first passphrases. */
export const SET_UP = { person: 'set-up', name: 'Set-up', role: 'acts at the machine itself', duties: [] };

/** A change of whoever sits at the machine, in the name of no person. */
export async function changeAtMachine<T>(
  records: Records,
  labId: string,
  action: string,
  work: (rows: Rows) => Promise<T>,
): Promise<T> {
  const known = await records.read(labId).maybe(tables.Person, { key: SET_UP.person });
  if (known && known.kind !== 'program')
    throw new Refusal({ code: 'state.conflict', detail: `${SET_UP.person} is a person in this lab, not the program.` });
  const by: Actor = { labId, personId: known?.id ?? newId() };
  return records.change(by, action, async (rows) => {
    if (!known) {
      await rows.add(tables.Person, { id: by.personId, key: SET_UP.person, kind: 'program' });
      await rows.addVersion(tables.PersonVersion, by.personId, { content: SET_UP });
    }
    return work(rows);
  });
}
