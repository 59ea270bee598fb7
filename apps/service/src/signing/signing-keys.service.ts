import { formatNoteKey, type KeyList, type SigningKeys } from '@breakbook/evidence';
import { Refusal } from '@breakbook/lab';
import { DocumentKeys, LedgerKeys, type Reader, Records, type Rows, tables } from '@breakbook/records';
import { Injectable } from '@nestjs/common';
import type { SignedInActor } from '../sign-in/signed-in.decorator.js';
import { changeAtMachine } from '../sign-in/the-machine.js';

/** The pairs of keys that labs sign documents with: the public halves and their lives in the records. */
@Injectable()
export class SigningKeysService {
  constructor(
    private readonly records: Records,
    private readonly keys: DocumentKeys,
    private readonly ledgerKeys: LedgerKeys,
  ) {}

  /** The pair that signs now; the first one is made when it is first asked for. */
  async inUse(labId: string): Promise<tables.SigningKey> {
    const found = await pairInUse(this.records.read(labId));
    if (found) return found;
    return changeAtMachine(this.records, labId, 'signing keys made', async (rows) => {
      await rows.lockLedger();
      return (await pairInUse(rows)) ?? this.#make(rows);
    });
  }

  /** Everything that whoever verifies a document must know of a lab's keys. */
  async listed(labId: string): Promise<KeyList> {
    const reader = this.records.read(labId);
    const [lab] = await reader.history(tables.LabVersion, labId).then((versions) => versions.slice(-1));
    const ledger = this.ledgerKeys.of(labId);
    const checkpoints = await reader.manager
      .createQueryBuilder(tables.LedgerCheckpoint, 'checkpoint')
      .select('distinct checkpoint.key', 'key')
      .where('checkpoint.labId = :labId', { labId })
      .getRawMany<{ key: string }>();
    return {
      form: 1,
      lab: { id: labId, name: lab?.content.name ?? labId },
      keys: await pairsOf(reader),
      ledger: [...new Set([formatNoteKey(ledger), ...checkpoints.map(({ key }) => key)])],
    };
  }

  /** Makes a new pair, or takes the one that was put there, and retires the one in use. */
  async replace(by: SignedInActor, reason: string): Promise<SigningKeys> {
    const { number } = await this.records.change(by, 'signing keys replaced', reason, async (rows) => {
      await rows.lockLedger();
      const before = await pairInUse(rows);
      if (before) await rows.add(tables.SigningKeyEnding, { signingKeyId: before.id, kind: 'retired', reason });
      return this.#make(rows);
    });
    return this.#one(by.labId, number);
  }

  /** Says that nothing a pair signed is to be trusted. Where it was the one in use, the next document has a new one. */
  async revoke(by: SignedInActor, number: number, reason: string): Promise<SigningKeys> {
    await this.records.change(by, 'signing keys revoked', reason, async (rows) => {
      await rows.lockLedger();
      const [pair] = await rows.find(tables.SigningKey, { number });
      if (!pair)
        throw new Refusal({ code: 'request.not-found', detail: `There is no pair of signing keys ${number}.` });
      if ((await rows.find(tables.SigningKeyEnding, { signingKeyId: pair.id, kind: 'revoked' })).length > 0)
        throw new Refusal({
          code: 'state.conflict',
          detail: `The signing keys ${number} are revoked already.`,
          action: 'Look at why; nothing was changed.',
        });
      await rows.add(tables.SigningKeyEnding, { signingKeyId: pair.id, kind: 'revoked', reason });
    });
    return this.#one(by.labId, number);
  }

  async #one(labId: string, number: number): Promise<SigningKeys> {
    const found = (await pairsOf(this.records.read(labId))).find((one) => one.number === number);
    if (!found) throw new Error(`Signing keys ${number} were written and are not there.`);
    return found;
  }

  async #make(rows: Rows): Promise<tables.SigningKey> {
    const [lab] = (await rows.history(tables.LabVersion, rows.labId)).slice(-1);
    const made = (await rows.find(tables.SigningKey, {}, { number: 'asc' })).at(-1)?.number ?? 0;
    const pair = await this.keys.make(rows.labId, made + 1, lab?.content.name ?? rows.labId, rows.at);
    return rows.add(tables.SigningKey, pair);
  }
}

async function pairInUse(reader: Reader): Promise<tables.SigningKey | undefined> {
  const last = (await reader.find(tables.SigningKey, {}, { number: 'asc' })).at(-1);
  if (!last || (await reader.find(tables.SigningKeyEnding, { signingKeyId: last.id })).length > 0) return undefined;
  return last;
}

async function pairsOf(reader: Reader): Promise<SigningKeys[]> {
  const endings = await reader.find(tables.SigningKeyEnding, {});
  return (await reader.find(tables.SigningKey, {}, { number: 'asc' })).map(
    ({ id, number, at, certificates, dataKey }) => {
      const ending = (kind: 'retired' | 'revoked') =>
        endings.find((one) => one.signingKeyId === id && one.kind === kind);
      const [retired, revoked] = [ending('retired'), ending('revoked')];
      return {
        number,
        certificates,
        data: dataKey,
        from: at.toISOString(),
        ...(retired ? { until: retired.at.toISOString() } : {}),
        ...(revoked ? { revoked: { at: revoked.at.toISOString(), because: revoked.reason } } : {}),
      };
    },
  );
}
