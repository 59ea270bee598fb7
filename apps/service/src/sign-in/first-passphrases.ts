import { type Duty, Refusal } from '@breakbook/lab';
import { type Records, type Rows, tables } from '@breakbook/records';
import { givePassphrase } from './credentials.js';
import { drawPassphrase } from './drawn-passphrase.js';
import { hashPassphrase } from './passphrase-hash.js';
import { takeSecondFactors } from './second-factor/second-factors.js';
import { changeAtMachine } from './the-machine.js';

/** What is printed once for a person, and kept nowhere. */
export interface FirstPassphrase {
  person: string;
  name: string;
  duties: Duty[];
  passphrase: string;
}

/**
 * Draws a passphrase for everybody in a lab in which nobody ever had one, which is so at the first start only. Later
 * starts answer an empty list: whoever comes later gets a passphrase from an administrator.
 */
export async function giveFirstPassphrases(records: Records): Promise<FirstPassphrase[]> {
  const given: FirstPassphrase[] = [];
  for (const { id: labId } of await records.labs()) given.push(...(await givenIn(records, labId)));
  return given;
}

async function givenIn(records: Records, labId: string): Promise<FirstPassphrase[]> {
  const reader = records.read(labId);
  if ((await reader.find(tables.CredentialChange, {})).length > 0) return [];
  const people = await reader.find(tables.Person, { kind: 'person' });
  if (people.length === 0) return [];
  const said = await reader.latestOf(
    tables.PersonVersion,
    people.map(({ id }) => id),
  );
  const drawn = await Promise.all(
    people.map(async (whose) => {
      const passphrase = drawPassphrase();
      return { whose, passphrase, hash: await hashPassphrase(passphrase) };
    }),
  );
  await changeAtMachine(records, labId, 'first passphrases given', async (rows) => {
    await refuseSecondStart(rows);
    for (const { whose, hash } of drawn)
      await givePassphrase(rows, whose, hash, { cause: 'first start', temporary: false });
  });
  return drawn.map(({ whose, passphrase }) => {
    const { name = whose.key, duties = [] } = said.get(whose.id)?.content ?? {};
    return { person: whose.key, name, duties, passphrase };
  });
}

/** Two starts on one server at once would each print what the other has made worthless. */
async function refuseSecondStart(rows: Rows): Promise<void> {
  await rows.lock(tables.Lab, rows.labId);
  if ((await rows.find(tables.CredentialChange, {})).length > 0)
    throw new Refusal({
      code: 'state.conflict',
      detail: 'Another start gave and printed the first passphrases in this moment. Start again.',
    });
}

/**
 * A new passphrase for somebody who has lost theirs, given at the machine itself. Whoever sits there has seen it, so it
 * opens nothing but the way to an own one. What they had beside the passphrase is taken away with it: this is the way
 * back for a lab whose only administrator has lost everything.
 */
export async function resetPassphrase(records: Records, labId: string, person: string): Promise<string> {
  const whose = await records.read(labId).named(tables.Person, person);
  if (whose.kind === 'program')
    throw new Refusal({ code: 'request.not-found', detail: `${person} is a program, which never signs in.` });
  const passphrase = drawPassphrase();
  const hash = await hashPassphrase(passphrase);
  await changeAtMachine(records, labId, 'passphrase reset at the machine', async (rows) => {
    await takeSecondFactors(rows, whose);
    await givePassphrase(rows, whose, hash, { cause: 'reset at the machine', temporary: true });
  });
  return passphrase;
}
