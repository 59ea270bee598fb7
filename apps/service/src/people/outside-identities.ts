import { Refusal } from '@breakbook/lab';
import { type Reader, Records, type Rows, tables } from '@breakbook/records';
import { Injectable } from '@nestjs/common';
import { endSessionsOf } from '../sign-in/credentials.js';
import type { SignedInActor } from '../sign-in/signed-in.decorator.js';
import { personCalled } from './people.service.js';

/** What a provider calls somebody. */
export interface OutsideName {
  issuer: string;
  subject: string;
}

/** By whose word somebody may sign in; only an administrator says so. Duties stay the lab's. */
@Injectable()
export class OutsideIdentities {
  constructor(private readonly records: Records) {}

  async of(labId: string, person: string): Promise<OutsideName | null> {
    const reader = this.records.read(labId);
    return linkOf(reader, (await personCalled(reader, person)).id);
  }

  async link(by: SignedInActor, person: string, { issuer, subject }: OutsideName, reason: string): Promise<void> {
    await this.records.change(by, 'outside identity linked', reason, async (rows) => {
      // Two links to one name at once take turns here.
      await rows.lock(tables.OutsideIdentity, by.labId);
      const { id } = await personCalled(rows, person);
      const linked = await linkOf(rows, id);
      if (linked)
        throw new Refusal({
          code: 'state.conflict',
          detail: `${person} is linked to "${linked.subject}" at ${linked.issuer} already.`,
          action: 'End that link first.',
        });
      await refuseTaken(rows, { issuer, subject });
      await this.#say(rows, id, { issuer, subject });
    });
  }

  async end(by: SignedInActor, person: string, reason: string): Promise<void> {
    await this.records.change(by, 'outside identity ended', reason, async (rows) => {
      await rows.lock(tables.OutsideIdentity, by.labId);
      const { id } = await personCalled(rows, person);
      if (!(await linkOf(rows, id)))
        throw new Refusal({ code: 'state.conflict', detail: `${person} is linked to nobody outside.` });
      await this.#say(rows, id, { issuer: null, subject: null });
    });
  }

  async #say(rows: Rows, personId: string, name: OutsideName | { issuer: null; subject: null }): Promise<void> {
    await rows.addVersion(tables.OutsideIdentity, personId, name);
    await endSessionsOf(rows, personId);
  }
}

async function linkOf(reader: Reader, personId: string): Promise<OutsideName | null> {
  const said = (await reader.latestOf(tables.OutsideIdentity, [personId])).get(personId);
  return said?.issuer && said.subject ? { issuer: said.issuer, subject: said.subject } : null;
}

/** One name outside is one person here. */
async function refuseTaken(rows: Rows, { issuer, subject }: OutsideName): Promise<void> {
  const known = await rows.find(tables.OutsideIdentity, { issuer, subject });
  const now = await rows.latestOf(
    tables.OutsideIdentity,
    known.map(({ recordId }) => recordId),
  );
  const holder = [...now.values()].find((one) => one.issuer === issuer && one.subject === subject);
  if (!holder) return;
  const { key } = await rows.one(tables.Person, holder.recordId);
  throw new Refusal({ code: 'state.conflict', detail: `${key} is linked to that name already. Nothing was changed.` });
}
