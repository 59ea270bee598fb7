import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

/** Where things are, from the environment or by default. */
export const settings = {
  projectFolder: fileURLToPath(new URL('../../..', import.meta.url)),
  dataFolder: process.env.BREAKBOOK_DATA ?? path.join(os.homedir(), '.breakbook'),
  databaseUrl: process.env.DATABASE_URL,
  /** Loopback only: the service has no transport encryption of its own. */
  host: '127.0.0.1',
  port: portFrom(process.env.PORT),
};

function portFrom(written: string | undefined): number {
  if (written === undefined || written === '') return 3000;
  if (!/^\d{1,5}$/.test(written) || Number(written) < 1 || Number(written) > 65_535)
    throw new Error(`PORT is "${written}"; it must be a whole number from 1 to 65535.`);
  return Number(written);
}
