import type { Lab as LabContent, Person as PersonContent } from '@breakbook/lab';
import type { Records } from '../change/records.js';
import { type Actor, newId } from '../change/rows.js';
import { Lab, LabVersion, Person, PersonVersion } from '../entities/index.js';

export interface Founder {
  /** A program acts in its own name: the set-up that loads a demonstration is nobody's doing. */
  kind: Person['kind'];
  content: PersonContent;
}

/** Founds a lab together with whom it is founded by: the first entry of its ledger. */
export async function foundLab(records: Records, lab: LabContent, founder: Founder): Promise<Actor> {
  const by = { labId: newId(), personId: newId() };
  await records.change(by, 'lab founded', async (rows) => {
    await rows.add(Lab, { id: by.labId, key: lab.lab });
    await rows.addVersion(LabVersion, by.labId, { content: lab });
    await rows.add(Person, { id: by.personId, key: founder.content.person, kind: founder.kind });
    await rows.addVersion(PersonVersion, by.personId, { content: founder.content });
  });
  return by;
}
