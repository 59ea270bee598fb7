import { fillSignature, formatDocumentRecord, sha256, signCms, signDetached } from '@breakbook/evidence';
import { type Actor, DocumentKeys, LedgerTrees, type Reader, Records, tables } from '@breakbook/records';
import type { Sealing } from '@breakbook/reports';
import { Injectable } from '@nestjs/common';
import { CheckpointKeeper } from '../ledger/checkpoint-keeper.js';
import { SigningKeysService } from './signing-keys.service.js';

/** Which document a content is of. */
export interface ToSeal {
  kind: string;
  /** The number printed on it. */
  document: string;
  revision: number;
  /** Its content in canonical JSON, as it is attached. */
  json: string;
}

/** A signed file, and what the records are to say of its signing. */
export interface Sealed {
  pdf: Uint8Array;
  contentId: string;
  signingKeyId: string;
}

/**
 * Signs documents. First the content is named in the ledger by its digest; then a checkpoint is signed, so that the file
 * can carry the proof; then the file is laid out around it and signed, to the last byte.
 */
@Injectable()
export class SealingService {
  constructor(
    private readonly records: Records,
    private readonly trees: LedgerTrees,
    private readonly keeper: CheckpointKeeper,
    private readonly signingKeys: SigningKeysService,
    private readonly keys: DocumentKeys,
  ) {}

  /** From when on the pair in use signs: no document is issued before. */
  async from(labId: string): Promise<Date> {
    return (await this.signingKeys.inUse(labId)).at;
  }

  async seal(by: Actor, toSeal: ToSeal, compose: (sealing: Sealing) => Promise<Uint8Array>): Promise<Sealed> {
    const { id: signingKeyId, number } = await this.signingKeys.inUse(by.labId);
    const { signer, data } = await this.keys.pair(by.labId, number);
    const content = await this.#content(by, toSeal);
    const record = await this.#record(this.records.read(by.labId), content);
    const jws = await signDetached(toSeal.json, data);
    const file = await compose({ jws, record });
    return { pdf: fillSignature(file, (digest) => signCms(digest, signer)), contentId: content.id, signingKeyId };
  }

  /** The row that names the content; one that an attempt before has written is taken. */
  async #content(by: Actor, { kind, document, revision, json }: ToSeal): Promise<tables.DocumentContent> {
    const said = { document, revision, sha256: sha256(json) };
    const known = await this.records.read(by.labId).maybe(tables.DocumentContent, said);
    if (known) return known;
    return this.records.change(by, 'content of a document fixed', (rows) =>
      rows.add(tables.DocumentContent, { kind, ...said, size: Buffer.byteLength(json) }),
    );
  }

  async #record(reader: Reader, { id }: tables.DocumentContent): Promise<string> {
    const { size, key, note } = await this.keeper.sign(reader.labId);
    // From the end: the entry is one of the last.
    const [entry] = await reader.manager.query<{ sequence: number; text: string }[]>(
      'select sequence, text from ledger_entry where lab_id = $1 and position($2 in text) > 0 order by sequence desc limit 1',
      [reader.labId, id],
    );
    if (!entry) throw new Error(`No entry of the ledger names the content ${id}.`);
    const tree = await this.trees.of(reader);
    const leaf = entry.sequence - 1;
    return formatDocumentRecord({
      form: 1,
      entry: entry.text,
      leaf,
      proof: tree.proveInclusion(leaf, size),
      checkpoint: note,
      key,
    });
  }
}
