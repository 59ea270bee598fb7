import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { openCheckpoint, parseNoteKey } from '@breakbook/evidence';
import { EXIT, Refusal, shown } from '@breakbook/lab';
import {
  DatabaseUnusable,
  type KeptElsewhere,
  ledgerOrigin,
  lookInto,
  openDataSource,
  PostgresRawStore,
  Records,
  type RecordsBroken,
  type RecordsHold,
  verifyRecords,
} from '@breakbook/records';
import { Progress, printable } from '../terminal.js';

export interface LedgerCheckOptions {
  data?: string;
  checkpoint?: string[];
  key?: string;
}

/** Is everything the labs of a database recorded as it was written? */
export async function ledgerCheckCommand({ data, checkpoint = [], key }: LedgerCheckOptions): Promise<number> {
  const elsewhere = checkpoint.map((file) => keptElsewhere(file, key));
  try {
    const url = data === undefined ? process.env.DATABASE_URL : undefined;
    const dataFolder = data ?? process.env.BREAKBOOK_DATA ?? path.join(os.homedir(), '.breakbook');
    const { connection, close } = await lookInto({ url, dataFolder });
    try {
      const dataSource = await openDataSource(connection, 2);
      try {
        return await checkLabs(new Records(dataSource), elsewhere);
      } finally {
        await dataSource.destroy();
      }
    } finally {
      await close();
    }
  } catch (error) {
    if (!(error instanceof DatabaseUnusable)) throw error;
    console.error(printable(error.message));
    return EXIT.away;
  }
}

/** A checkpoint from a file, opened with the key before anything is read: what is none is found at once. */
function keptElsewhere(file: string, key: string | undefined): KeptElsewhere & { origin: string } {
  if (key === undefined)
    throw new Refusal({
      code: 'body.missing-field',
      detail: 'A checkpoint needs the key that opens it.',
      action: 'Give the key that stood beside the checkpoint with --key.',
    });
  if (!fs.existsSync(file))
    throw new Refusal({ code: 'file.missing', file, detail: `There is no checkpoint ${shown(file)}.` });
  const note = fs.readFileSync(file, 'utf8');
  try {
    return { note, key, origin: openCheckpoint(note, parseNoteKey(key)).origin };
  } catch (error) {
    throw new Refusal({
      code: 'body.format',
      file,
      detail: `${shown(file)} is no checkpoint that this key signed: ${(error as Error).message}`,
      expected: 'a signed note as it was handed out, and the key that stood beside it',
    });
  }
}

async function checkLabs(
  records: Records,
  elsewhere: readonly (KeptElsewhere & { origin: string })[],
): Promise<number> {
  const labs = await records.labs();
  const strange = elsewhere.find(({ origin }) => !labs.some(({ id }) => origin === ledgerOrigin(id)));
  if (strange)
    throw new Refusal({
      code: 'meta.unknown',
      detail: `A checkpoint is of ${shown(strange.origin)}, and no lab of this database has that ledger.`,
    });
  let all = true;
  for (const { id, key } of labs) {
    const progress = new Progress(`lab ${key}`);
    const found = await verifyRecords(records.read(id), new PostgresRawStore(), {
      elsewhere: elsewhere.filter(({ origin }) => origin === ledgerOrigin(id)),
      onProgress: (done, of) => progress.report(done, of),
    });
    progress.end();
    console.log(printable(`Lab ${key}: ${said(found)}`));
    all &&= found.holds;
  }
  return all ? EXIT.done : EXIT.doesNotMeet;
}

function said(found: RecordsHold | RecordsBroken): string {
  if (found.holds) {
    const { entries, rows, files, checkpoints, head } = found;
    return (
      `everything is as it was written: ${entries} entries, ${rows} rows, ${files} kept files, ${checkpoints} checkpoints.` +
      (head ? ` The last entry is ${head.sequence}, ${head.hash}.` : '')
    );
  }
  const where = [
    found.sequence === undefined ? [] : [`entry ${found.sequence}`],
    found.table === undefined ? [] : [`table ${found.table}`],
    found.id === undefined ? [] : [`row ${found.id}`],
  ].flat();
  return `not as it was written${where.length > 0 ? `, first at ${where.join(', ')}` : ''}: ${found.because}.`;
}
