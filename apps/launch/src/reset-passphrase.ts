import path from 'node:path';
import { Refusal } from '@breakbook/lab';
import { DatabaseUnusable, openDatabase, openDataSource, Records } from '@breakbook/records';
import { resetPassphrase } from '@breakbook/service';
import { settings, WrongSetting } from './settings.js';

/**
 * A new passphrase for somebody who has lost theirs, for whoever can reach the machine:
 *
 *     node apps/launch/dist/reset-passphrase.js <person>
 *
 * It ends their sessions, leaves an entry in the ledger, and must be replaced at the next sign-in.
 */
const [person, ...more] = process.argv.slice(2);
if (person === undefined || more.length > 0) {
  console.error('breakbook: name one person, such as: node apps/launch/dist/reset-passphrase.js i-sorbo');
  process.exit(2);
}

try {
  console.log(`
A new passphrase for ${person}, shown this once. It must be replaced by an own one at the next sign-in.
  ${await newPassphrase(person)}`);
} catch (error) {
  if (error instanceof DatabaseUnusable || error instanceof WrongSetting) console.error(`breakbook: ${error.message}`);
  else if (error instanceof Refusal) console.error(`breakbook: ${error.message} Nothing was changed.`);
  else console.error('breakbook: the passphrase could not be reset:', error);
  process.exit(error instanceof Refusal || error instanceof WrongSetting ? 2 : 70);
}

async function newPassphrase(of: string): Promise<string> {
  const { projectFolder, dataFolder, databaseUrl } = settings();
  const migrations = path.join(projectFolder, 'migrations');
  const database = await openDatabase({ url: databaseUrl, dataFolder, migrations });
  try {
    const dataSource = await openDataSource(database.service);
    try {
      const records = new Records(dataSource);
      const [lab] = await records.labs();
      if (!lab) throw new Refusal({ code: 'request.not-found', detail: 'There is no lab in this installation yet.' });
      return await resetPassphrase(records, lab.id, of);
    } finally {
      await dataSource.destroy();
    }
  } finally {
    await database.stop();
  }
}
