import pg from 'pg';
import { startEmbedded } from './embedded.js';
import { asServiceRole, checkExternal } from './external.js';
import { migrate } from './migrations.js';
import { ensureServiceRole, SERVICE_ROLE } from './service-role.js';

export interface DatabaseChoice {
  /** An external server; without it, the embedded one on `dataFolder` is started. */
  url?: string | undefined;
  dataFolder: string;
  /** The folder of migrations. */
  migrations: string;
}

/** A database that is up, sound and migrated. */
export interface OpenDatabase {
  /** As the role of the service, which can add rows but neither alter nor remove any. */
  service: pg.ClientConfig;
  /** As the owner of the tables: for migrations, and for nothing the service does. */
  owner: pg.ClientConfig;
  /** The migrations applied just now. */
  migrated: string[];
  /** For the closing message: where the data lie. */
  where: string;
  /** Stops the embedded server; an external one is left alone. */
  stop(): Promise<void>;
}

/** Starts or finds the database, checks that it keeps what it is given, and migrates it. */
export async function openDatabase({ url, dataFolder, migrations }: DatabaseChoice): Promise<OpenDatabase> {
  if (url !== undefined && url !== '') {
    await checkExternal(url);
    const owner = { connectionString: url };
    const migrated = await prepare(owner, migrations, false);
    return { owner, service: asServiceRole(url), migrated, where: 'the server of DATABASE_URL', stop: async () => {} };
  }
  const embedded = await startEmbedded(dataFolder);
  try {
    const owner = embedded.connection;
    const migrated = await prepare(owner, migrations, true);
    return { owner, service: { ...owner, user: SERVICE_ROLE }, migrated, where: dataFolder, stop: embedded.stop };
  } catch (error) {
    await embedded.stop();
    throw error;
  }
}

/** Makes the service's role and the tables it is granted. */
export async function prepare(owner: pg.ClientConfig, migrations: string, signsIn: boolean): Promise<string[]> {
  const client = new pg.Client(owner);
  client.on('error', () => {}); // A connection cut off shows in the next query; unheard it would end the process.
  await client.connect();
  try {
    await ensureServiceRole(client, signsIn);
  } finally {
    await client.end();
  }
  return migrate(owner, migrations);
}
