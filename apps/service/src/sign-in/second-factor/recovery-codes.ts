import { createHash, randomBytes } from 'node:crypto';
import { newId, type Rows, tables } from '@breakbook/records';
import { base32 } from './base32.js';

const CODES = 10;
/** 80 bits each. */
const BYTES = 10;

/**
 * New codes for the day on which everything else is lost, in place of those before. Each opens once; they are shown this
 * once and kept as digests.
 */
export async function drawRecoveryCodes(rows: Rows): Promise<string[]> {
  const whose = [rows.labId, rows.by.personId];
  const codes = Array.from({ length: CODES }, () => written(base32(randomBytes(BYTES))));
  await rows.manager.query('delete from recovery_code where lab_id = $1 and person_id = $2', whose);
  for (const code of codes)
    await rows.manager.query('insert into recovery_code (lab_id, person_id, id, sha256) values ($1, $2, $3, $4)', [
      ...whose,
      newId(),
      digestOf(code),
    ]);
  await rows.add(tables.CredentialChange, { whoseId: rows.by.personId, cause: 'recovery codes drawn' });
  return codes;
}

/** Takes a code out of use. Was it one? */
export async function takeRecoveryCode(rows: Rows, typed: string): Promise<boolean> {
  const taken = await rows.manager.query<[unknown[], number]>(
    'delete from recovery_code where lab_id = $1 and person_id = $2 and sha256 = $3',
    [rows.labId, rows.by.personId, digestOf(typed)],
  );
  if (taken[1] === 0) return false;
  await rows.add(tables.CredentialChange, { whoseId: rows.by.personId, cause: 'recovery code used' });
  return true;
}

/** In fours, as they are easily copied by hand: `gezd-gnbv-gy3t-qojq`. */
function written(code: string): string {
  return (code.toLowerCase().match(/.{4}/g) ?? []).join('-');
}

function digestOf(typed: string): string {
  return createHash('sha256')
    .update(typed.toLowerCase().replaceAll(/[^a-z2-7]/g, ''))
    .digest('hex');
}

/** Recovery codes for whoever has none yet; nothing where there are some. */
export async function firstRecoveryCodes(rows: Rows): Promise<string[]> {
  const left = await rows.manager.query<unknown[]>(
    'select from recovery_code where lab_id = $1 and person_id = $2 limit 1',
    [rows.labId, rows.by.personId],
  );
  return left.length > 0 ? [] : drawRecoveryCodes(rows);
}
