import { randomBytes } from 'node:crypto';
import { canonicalJson, sha256 } from '@breakbook/evidence';
import { EvidenceDamaged, newId, type Reader, type Rows } from '@breakbook/records';

/** The id and digest of the row of evidence that stands for a text which only some may read. */
export interface Withheld {
  id: string;
  saltedSha256: string;
}

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
export async function withheldTexts<T>(reader: Reader, rows: readonly Withheld[]): Promise<T[]> {
  const found = await reader.manager.query<{ id: string; salt: string; content: T & object }[]>(
    'select id, salt, content from withheld_text where lab_id = $1 and id = any($2)',
    [reader.labId, rows.map(({ id }) => id)],
  );
  return rows.map(({ id, saltedSha256 }) => {
    const one = found.find((kept) => kept.id === id);
    if (!one || saltedDigest(one.salt, one.content) !== saltedSha256)
      throw new EvidenceDamaged(`The withheld text ${id} is not what was kept.`);
    return one.content;
  });
}

function saltedDigest(salt: string, content: object): string {
  return sha256(`${salt}\n${canonicalJson(content)}`);
}
