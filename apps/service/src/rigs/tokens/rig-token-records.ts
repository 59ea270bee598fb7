import { Refusal } from '@breakbook/lab';
import { newId, type Reader, Records, type Rows, tables } from '@breakbook/records';
import { Injectable } from '@nestjs/common';
import { peopleBehind } from '../../records/read-kind.js';
import { digestOfSecret, drawSecret } from '../../sign-in/drawn-secret.js';
import type { SignedInActor } from '../../sign-in/signed-in.decorator.js';

/** So that one can be put in place before the other is taken away. */
const AT_ONCE = 2;
const DAY = 24 * 60 * 60 * 1000;

/** A token as it is shown later: what it is for, never what it is. */
export interface ListedToken {
  number: number;
  note: string;
  at: string;
  by: string;
  expiresAt: string;
  state: 'in force' | 'revoked' | 'expired';
  revoked?: { at: string; by: string; reason: string };
}

/** The tokens of a rig's computer: made, listed, revoked. */
@Injectable()
export class RigTokenRecords {
  constructor(private readonly records: Records) {}

  async list(labId: string, rig: string): Promise<ListedToken[]> {
    const reader = this.records.read(labId);
    const { id } = await reader.named(tables.Rig, rig);
    return listed(reader, id, new Date());
  }

  /** Makes a token. It is in the answer this once; what is kept of it tells nothing. */
  async make(
    by: SignedInActor,
    rig: string,
    { note, days }: { note: string; days: number },
  ): Promise<ListedToken & { token: string }> {
    const token = `bbrig_${drawSecret()}`;
    const made = await this.records.change(by, 'rig token made', async (rows) => {
      const noun = await rows.named(tables.Rig, rig);
      await rows.lock(tables.Rig, noun.id);
      await refuseThird(rows, noun);
      const { number } = await rows.add(tables.RigToken, {
        rigId: noun.id,
        programId: await programOf(rows, noun),
        note,
        sha256: digestOfSecret(token),
        expiresAt: new Date(rows.at.getTime() + days * DAY),
      });
      return (await listed(rows, noun.id, rows.at)).find((one) => one.number === number);
    });
    if (!made) throw new Error(`The token just made for rig ${rig} is not in its list.`);
    return { ...made, token };
  }

  /** Ends a token before its time; the next call by it is refused. */
  async revoke(by: SignedInActor, rig: string, number: number, reason: string): Promise<ListedToken> {
    return this.records.change(by, 'rig token revoked', reason, async (rows) => {
      const noun = await rows.named(tables.Rig, rig);
      const token = await rows.maybe(tables.RigToken, { rigId: noun.id, number });
      if (!token) throw new Refusal({ code: 'request.not-found', detail: `Rig ${rig} has no token ${number}.` });
      await rows.add(tables.RigTokenRevocation, { rigTokenId: token.id, reason });
      const [revoked] = (await listed(rows, noun.id, rows.at)).filter((one) => one.number === number);
      if (!revoked) throw new Error(`Token ${number} of rig ${rig} is not in its list.`);
      return revoked;
    });
  }
}

async function refuseThird(rows: Rows, { id, key }: tables.Rig): Promise<void> {
  const inForce = (await listed(rows, id, rows.at)).filter(({ state }) => state === 'in force');
  if (inForce.length < AT_ONCE) return;
  throw new Refusal({
    code: 'state.conflict',
    detail: `Rig ${key} has ${AT_ONCE} tokens in force already: ${inForce.map(({ number, note }) => `${number} (${note})`).join(', ')}.`,
    action: 'Revoke the one that is not used any more, then make the new one.',
  });
}

/** The program in whose name the rig's computer acts; added with its first token. */
async function programOf(rows: Rows, rig: tables.Rig): Promise<string> {
  const [before] = await rows.find(tables.RigToken, { rigId: rig.id });
  if (before) return before.programId;
  const { content } = await rows.latest(tables.RigVersion, rig.id);
  const key = `rig.${rig.number}`;
  const { id } = await rows.add(tables.Person, { id: newId(), key, kind: 'program' });
  await rows.addVersion(tables.PersonVersion, id, {
    content: { person: key, name: `Computer of rig ${content.rig}`, role: 'sends runs', duties: ['send'] },
  });
  return id;
}

async function listed(reader: Reader, rigId: string, now: Date): Promise<ListedToken[]> {
  const tokens = await reader.find(tables.RigToken, { rigId });
  const revocations = new Map(
    (await reader.find(tables.RigTokenRevocation, {})).map((one) => [one.rigTokenId, one] as const),
  );
  const people = await peopleBehind(reader, [...tokens, ...revocations.values()]);
  return tokens.map(({ id, number, note, at, personId, expiresAt }) => {
    const revocation = revocations.get(id);
    return {
      number,
      note,
      at: at.toISOString(),
      by: people.get(personId) ?? '',
      expiresAt: expiresAt.toISOString(),
      state: revocation ? 'revoked' : expiresAt <= now ? 'expired' : 'in force',
      ...(revocation
        ? {
            revoked: {
              at: revocation.at.toISOString(),
              by: people.get(revocation.personId) ?? '',
              reason: revocation.reason,
            },
          }
        : {}),
    };
  });
}
