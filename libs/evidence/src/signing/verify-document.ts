import { createPublicKey, type X509Certificate } from 'node:crypto';
import { parseCanonicalJson } from '../canonical-json.js';
import { openCheckpoint } from '../checkpoint.js';
import { sha256 } from '../digest.js';
import { parseNoteKey } from '../signed-note.js';
import { attachedFiles } from './attached-files.js';
import { certificateNames } from './certificate-names.js';
import { checkCms, readCms } from './cms.js';
import { checkDetached, kidOf } from './detached-jws.js';
import { documentFiles } from './document-files.js';
import { checkDocumentRecord, type DocumentRecord, parseDocumentRecord } from './document-record.js';
import { type KeyList, keysOfCertificate, type SigningKeys, whyNotGood } from './key-list.js';
import { readSignature } from './pdf-signature.js';

/** What is asked of a document, in this order. */
export const DOCUMENT_QUESTIONS = ['digest', 'signature', 'attachment', 'ledger', 'checkpoint'] as const;

/** The answer to one question; where it could not be asked, it neither holds nor fails. */
export interface Finding {
  asks: (typeof DOCUMENT_QUESTIONS)[number];
  holds: boolean | undefined;
  says: string;
}

export interface VerifiedDocument {
  findings: Finding[];
  /** The content, where it is what was signed. */
  content?: unknown;
}

/** What is known from elsewhere. */
export interface Known {
  /** The lab's public keys. */
  keys?: KeyList;
  /** A checkpoint kept where the lab cannot reach it, with the proof that the content's entry is under it. */
  kept?: { checkpoint: string; leaf: number; proof: string[] };
}

/**
 * Is this file, to the bit, what a lab signed; are the attached data those it was laid out from; and does its content
 * stand in the lab's ledger? Asks no service and no clock: keys are good for the instant of issue that was signed.
 */
export async function verifyDocument(file: Uint8Array, known: Known = {}): Promise<VerifiedDocument> {
  const findings: Finding[] = [];
  const add = (asks: Finding['asks'], holds: Finding['holds'], says: string) => findings.push({ asks, holds, says });
  const unasked = (because: string): VerifiedDocument => {
    for (const asks of DOCUMENT_QUESTIONS.slice(findings.length)) add(asks, undefined, because);
    return { findings };
  };

  let signer: X509Certificate;
  try {
    const { digest, cms } = readSignature(file);
    const signature = readCms(cms);
    signer = checkCms(signature, digest);
    add('digest', true, `every byte of the file is as it was signed; SHA-256 of what was signed: ${digest}`);
  } catch (error) {
    add('digest', false, (error as Error).message);
    return unasked('not asked: the file is not as it was signed');
  }

  let files: Awaited<ReturnType<typeof documentFiles>>;
  try {
    files = documentFiles(await attachedFiles(file));
  } catch (error) {
    add('signature', undefined, 'not asked: the attached data cannot be read');
    add('attachment', false, (error as Error).message);
    return unasked('not asked: the attached data cannot be read');
  }

  const pair = known.keys && keysOfCertificate(known.keys, signer);
  const signed = signedBy(signer, known.keys, pair, files.issuedAt);
  add('signature', signed.holds, signed.says);
  const attachment = await attachmentOf(files, known.keys, pair);
  add('attachment', attachment.holds, attachment.says);

  const content = sha256(files.json);
  let record: DocumentRecord;
  try {
    record = parseDocumentRecord(files.record);
    const { sequence, at, size } = checkDocumentRecord(record, content);
    add(
      'ledger',
      true,
      `the content is named by entry ${sequence} of the ledger, of ${at}, one of ${size} under its checkpoint`,
    );
  } catch (error) {
    add('ledger', false, (error as Error).message);
    return unasked('not asked: no entry is shown');
  }
  const checkpoint = checkpointOf(record, content, known);
  add('checkpoint', checkpoint.holds, checkpoint.says);
  return findings.some(({ holds }) => holds === false)
    ? { findings }
    : { findings, content: parseCanonicalJson(files.json) };
}

type Answer = Omit<Finding, 'asks'>;

function signedBy(
  signer: X509Certificate,
  keys: KeyList | undefined,
  pair: SigningKeys | undefined,
  issuedAt: string,
): Answer {
  const { subject } = certificateNames(signer);
  if (!keys)
    return {
      holds: undefined,
      says: `signed by whoever holds the key of "${subject}"; whether that is the lab was not asked: its keys were not given`,
    };
  if (!pair) return { holds: false, says: `the key of "${subject}" is none of the keys of ${keys.lab.name}` };
  const bad = whyNotGood(pair, issuedAt);
  if (bad) return { holds: false, says: bad };
  const now = pair.until === undefined ? 'in use' : `in use until ${pair.until}`;
  return { holds: true, says: `signed with key ${pair.number} of ${keys.lab.name} (${now}), certificate "${subject}"` };
}

async function attachmentOf(
  { name, json, jws }: { name: string; json: string; jws: string },
  keys: KeyList | undefined,
  pair: SigningKeys | undefined,
): Promise<Answer> {
  try {
    const kid = kidOf(jws);
    parseCanonicalJson(json);
    if (!keys)
      return {
        holds: undefined,
        says: `${name} is whole; its signature by key ${kid} was not asked: keys were not given`,
      };
    if (!pair || pair.data.kid !== kid)
      return { holds: false, says: `${name} is signed with key ${kid}, which is not of the pair that signed the file` };
    const publicKey = createPublicKey({ key: pair.data, format: 'jwk' });
    return (await checkDetached(jws, json, { kid, publicKey }))
      ? { holds: true, says: `${name} is canonical JSON and signed with the data key of the same pair` }
      : { holds: false, says: `the signature beside ${name} is not one of it` };
  } catch (error) {
    return { holds: false, says: (error as Error).message };
  }
}

function checkpointOf(record: DocumentRecord, content: string, { keys, kept }: Known): Answer {
  try {
    const key = parseNoteKey(record.key);
    const { origin, size } = openCheckpoint(record.checkpoint, key);
    if (!keys)
      return {
        holds: undefined,
        says: `signed by ${record.key}; whether that is the lab's ledger was not asked: keys were not given`,
      };
    if (!keys.ledger.includes(record.key))
      return { holds: false, says: `${record.key} is none of the keys of the ledger of ${keys.lab.name}` };
    if (!kept)
      return {
        holds: true,
        says: `signed for ${origin} at ${size} entries; with one kept elsewhere it was not compared`,
      };
    if (!keys.ledger.some((one) => opens(kept.checkpoint, one)))
      return { holds: false, says: 'the checkpoint kept elsewhere is not signed by a key of the ledger' };
    const elsewhere = checkDocumentRecord({ ...record, ...kept }, content);
    return {
      holds: true,
      says: `signed for ${origin} at ${size} entries, and the entry is under the one kept elsewhere at ${elsewhere.size}`,
    };
  } catch (error) {
    return { holds: false, says: (error as Error).message };
  }
}

function opens(checkpoint: string, key: string): boolean {
  try {
    openCheckpoint(checkpoint, parseNoteKey(key));
    return true;
  } catch {
    return false;
  }
}
