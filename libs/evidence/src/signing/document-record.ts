import { z } from 'zod';
import { canonicalJson, parseCanonicalJson } from '../canonical-json.js';
import { checkInclusion } from '../check-proofs.js';
import { readCheckpoint } from '../checkpoint.js';
import { type Digest, isDigest } from '../digest.js';
import { entryHash, parseEntry } from '../ledger-entry.js';

/** Table whose rows say which content a document was laid out from. */
export const CONTENT_TABLE = 'document_content';

const DigestText = z.string().refine(isDigest, 'expected a SHA-256 digest');

/**
 * What shows that the content of a document stands in the lab's ledger: the entry that names it, and the proof that the
 * entry is one of those under a checkpoint.
 */
const DocumentRecord = z.strictObject({
  form: z.literal(1),
  /** The text of the entry. */
  entry: z.string().min(1),
  /** Its place in the tree, counted from 0, and the hashes from there to the root (RFC 9162, 2.1.3). */
  leaf: z.int().min(0),
  proof: z.array(DigestText),
  /** A signed note, and the key that signed it as one line. */
  checkpoint: z.string().min(1),
  key: z.string().min(1),
});
export type DocumentRecord = z.infer<typeof DocumentRecord>;

export function formatDocumentRecord(record: DocumentRecord): string {
  return canonicalJson(DocumentRecord.parse(record));
}

export function parseDocumentRecord(text: string): DocumentRecord {
  return DocumentRecord.parse(parseCanonicalJson(text));
}

/** Entry, instant and checkpoint of a content that stands in the ledger. Throws where it is not shown. */
export function checkDocumentRecord(
  { entry: text, leaf, proof, checkpoint }: DocumentRecord,
  content: Digest,
): { sequence: number; at: string; size: number } {
  const entry = parseEntry(text);
  const named = entry.rows.some(({ table, after }) => table === CONTENT_TABLE && after.sha256 === content);
  if (!named) throw new Error(`entry ${entry.sequence} does not name a content with the digest ${content}`);
  const { size, root } = readCheckpoint(checkpoint);
  if (entry.sequence !== leaf + 1 || !checkInclusion({ hash: entryHash(text), leaf, size, root }, proof))
    throw new Error(`it is not shown that entry ${entry.sequence} is one of the ${size} under the checkpoint`);
  return { sequence: entry.sequence, at: entry.at, size };
}
