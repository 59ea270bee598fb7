import { type Actor, foundLab, newId, type Records, tables } from '@breakbook/records';

let labs = 0;

/** A new lab in the invented world, and who founded it. */
export function aLab(records: Records): Promise<Actor> {
  labs += 1;
  return foundLab(
    records,
    {
      lab: `saltmarsh-${labs}`,
      name: 'Saltmarsh Wheelworks test lab',
      address: 'Ropewalk 3, Saltmarsh',
      zone: 'Etc/UTC',
    },
    {
      kind: 'person',
      content: { person: 'imke', name: 'Imke Dorn', role: 'test engineer', duties: ['define', 'draw', 'record'] },
    },
  );
}

/** A person of that lab. */
export async function aPerson(records: Records, by: Actor, key: string): Promise<Actor> {
  const person = await records.change(by, 'person added', async (rows) => {
    const added = await rows.add(tables.Person, { key, kind: 'person' });
    const content = { person: key, name: key, role: 'technician', duties: ['record' as const] };
    await rows.addVersion(tables.PersonVersion, added.id, { content });
    return added;
  });
  return { labId: by.labId, personId: person.id };
}

/** A lot of Dunlin 42 rims with specimens of these keys. */
export function aLot(records: Records, by: Actor, keys: string[], lotKey = `lot-${newId()}`.slice(0, 40)) {
  return records.change(by, 'lot received', async (rows) => {
    const product =
      (await rows.maybe(tables.Product, { key: 'dunlin-42' })) ??
      (await rows.add(tables.Product, { key: 'dunlin-42' }));
    const lot = await rows.add(tables.Lot, { key: lotKey, productId: product.id });
    const specimens: tables.Specimen[] = [];
    for (const key of keys) {
      const specimen = await rows.add(tables.Specimen, { key, lotId: lot.id });
      await rows.addVersion(tables.SpecimenVersion, specimen.id, {
        content: {
          specimen: key,
          lot: lotKey,
          serial: `DN42-${key}`,
          origin: 'drawn at random',
          receivedAt: '2031-03-03T08:00:00Z',
          condition: 'as new',
          mass: { value: 412, unit: 'g' },
        },
      });
      specimens.push(specimen);
    }
    return { lot, specimens };
  });
}
