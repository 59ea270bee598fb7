import path from 'node:path';
import { DatabaseUnusable, openDatabase } from '@breakbook/records';
import { loadArithmetic, prepareJobs, startService } from '@breakbook/service';
import { loadDemoLab } from './demo-lab.js';
import { firstPassphrases } from './first-passphrases.js';
import { freePort } from './free-port.js';
import { settings, WrongSetting } from './settings.js';
import { onShutdown } from './shutdown.js';

const say = (line: string) => console.log(`breakbook: ${line}`);

try {
  await start();
} catch (error) {
  // What can be mended by whoever started it is told as a sentence; the rest is ours and comes with its trace.
  if (error instanceof DatabaseUnusable || error instanceof WrongSetting) console.error(`breakbook: ${error.message}`);
  else console.error('breakbook: could not start:', error);
  process.exit(error instanceof WrongSetting ? 2 : 70);
}

/** Whoever asks for help, or writes a setting as a word, must not find a lab made instead. */
function refuseWords([word]: readonly string[]): void {
  if (word === undefined) return;
  throw new WrongSetting(
    `a start takes no words, and "${word}" is one. Settings are environment variables, such as PORT, BREAKBOOK_DATA (the data folder) and DATABASE_URL; README.md and docs/ tell them all. Commands are called by breakbook: breakbook --help.`,
  );
}

async function start(): Promise<void> {
  refuseWords(process.argv.slice(2));
  const { projectFolder, dataFolder, databaseUrl, keysFolder, checkpointCopies, host, port, origin, provider, quotas } =
    settings();
  const stops: (() => Promise<void>)[] = [];
  onShutdown(async () => {
    say('stopping');
    for (const stop of stops.reverse()) await stop();
  });

  const database = await openDatabase({
    url: databaseUrl,
    dataFolder,
    migrations: path.join(projectFolder, 'migrations'),
  });
  stops.push(database.stop);
  if (database.migrated.length > 0) say(`database: ${database.migrated.length} migrations applied`);
  await prepareJobs(database.owner);
  await loadDemoLab(database.service, path.join(projectFolder, 'sample-runs'), say);

  const free = await freePort(port, host);
  if (free !== port) say(`port ${port} is busy, so ${free} is used`);
  const service = await startService({
    database: database.service,
    keys: { folder: keysFolder, ...(checkpointCopies ? { checkpointCopies } : {}) },
    host,
    port: free,
    quotas,
    consoleFolder: path.join(projectFolder, 'apps/console/dist'),
    ...(origin === undefined ? {} : { origin }),
    ...(provider === undefined ? {} : { provider }),
  });
  stops.push(service.close);

  const passphrases = await firstPassphrases(database.service);
  if (passphrases !== undefined) console.log(passphrases);
  console.log(`
Breakbook is running.
  Look at   http://${host === '127.0.0.1' ? 'localhost' : host}:${free}
  Data in   ${database.where}
  Stop with Ctrl-C`);
  await loadArithmetic();
}
