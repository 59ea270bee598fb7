import { randomBytes } from 'node:crypto';
import { canonicalJson, sha256 } from '@breakbook/evidence';
import type { Reader } from '../change/reader.js';
import { newId, type Rows } from '../change/rows.js';
import { CodeList, ProtectedNote } from '../entities/index.js';
import { EvidenceDamaged } from '../raw/raw-store.js';

/** The id and digest of the row of evidence that stands for a text which only some may read. */
export interface Withheld {
  id: string;
  saltedSha256: string;
}

interface StoredText {
  id: string;
  salt: string;
  content: object;
}

/** Tables of evidence whose rows stand for a text that is kept apart. */
const STANDING_FOR_TEXT = [ProtectedNote, CodeList];

/**
 * Keeps a text apart from the evidence: the row to be added under this id says that it is there, and the ledger by its
 * salted digest that it stays as it is. Without the salt nobody can try likely texts against the digest.
 */
export async function withhold(rows: Rows, content: object): Promise<Withheld> {
  const id = newId();
  const salt = randomBytes(32).toString('hex');
  await rows.manager.query('insert into withheld_text (lab_id, id, salt, content) values ($1, $2, $3, $4)', [
    rows.labId,
    id,
    salt,
    JSON.stringify(content),
  ]);
  return { id, saltedSha256: saltedDigest(salt, content) };
}

/** The texts of these rows, each held to its digest. */
export async function withheldTexts<T extends object>(reader: Reader, rows: readonly Withheld[]): Promise<T[]> {
  const stored = await storedTexts(reader, rows);
  return rows.map((row) => {
    const text = stored.get(row.id);
    if (!isAsKept(row, text)) throw new EvidenceDamaged(`The withheld text ${row.id} is not what was kept.`);
    return text.content as T;
  });
}

/** The first row whose text is not what was kept, with its table; undefined where all are. */
export async function damagedText(reader: Reader): Promise<{ table: string; id: string } | undefined> {
  for (const table of STANDING_FOR_TEXT) {
    const rows = await reader.find<ProtectedNote | CodeList>(table, {});
    const stored = await storedTexts(reader, rows);
    const damaged = rows.find((row) => !isAsKept(row, stored.get(row.id)));
    if (damaged) return { table: reader.manager.dataSource.getMetadata(table).tableName, id: damaged.id };
  }
  return undefined;
}

async function storedTexts(reader: Reader, rows: readonly Withheld[]): Promise<Map<string, StoredText>> {
  const found = await reader.manager.query<StoredText[]>(
    'select id, salt, content from withheld_text where lab_id = $1 and id = any($2)',
    [reader.labId, rows.map(({ id }) => id)],
  );
  return new Map(found.map((one) => [one.id, one]));
}

function isAsKept({ saltedSha256 }: Withheld, text: StoredText | undefined): text is StoredText {
  return text !== undefined && saltedDigest(text.salt, text.content) === saltedSha256;
}

function saltedDigest(salt: string, content: object): string {
  return sha256(`${salt}\n${canonicalJson(content)}`);
}
