import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

/** A setting that cannot be followed; its message says what it must be. */
export class WrongSetting extends Error {}

/** Where things are, from the environment or by default. */
export const settings = () => ({
  projectFolder: fileURLToPath(new URL('../../..', import.meta.url)),
  dataFolder: dataFolder(),
  databaseUrl: process.env.DATABASE_URL,
  /** Keys lie outside the database, so that whoever has that has not them. */
  keysFolder: process.env.BREAKBOOK_KEYS ?? path.join(dataFolder(), 'keys'),
  /** Every checkpoint of the ledger is written there too: a folder the lab does not control. */
  checkpointCopies: process.env.BREAKBOOK_CHECKPOINTS,
  /** Loopback only: the service has no transport encryption of its own; what stands in front of it ends TLS. */
  host: '127.0.0.1',
  port: portFrom(process.env.PORT),
  origin: originFrom(process.env.BREAKBOOK_ORIGIN),
});

function dataFolder(): string {
  return process.env.BREAKBOOK_DATA ?? path.join(os.homedir(), '.breakbook');
}

function portFrom(written: string | undefined): number {
  if (written === undefined || written === '') return 3000;
  if (!/^\d{1,5}$/.test(written) || Number(written) < 1 || Number(written) > 65_535)
    throw new WrongSetting(`PORT is "${written}"; it must be a whole number from 1 to 65535.`);
  return Number(written);
}

/** Where people reach the service through a server that ends TLS in front of it. */
function originFrom(written: string | undefined): string | undefined {
  if (written === undefined || written === '') return undefined;
  const address = URL.canParse(written) ? new URL(written) : undefined;
  if (address?.protocol !== 'https:' || address.origin !== written)
    throw new WrongSetting(
      `BREAKBOOK_ORIGIN is "${written}"; it must be an https address without a path, such as https://breakbook.example.org.`,
    );
  return written;
}
