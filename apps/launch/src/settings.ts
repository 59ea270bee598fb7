import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { type CallerQuotas, UPLOAD_BOUNDS, USUAL_QUOTAS } from '@breakbook/service';

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
  provider: providerFrom(process.env),
  quotas: quotasFrom(process.env),
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

/** How much one caller may have kept or made within an hour; what is not set is as usual. */
function quotasFrom(environment: NodeJS.ProcessEnv): CallerQuotas {
  const quota = (name: string, usual: number, least: number) => {
    const written = environment[name];
    if (written === undefined || written === '') return usual;
    if (!/^\d{1,15}$/.test(written) || Number(written) < least)
      throw new WrongSetting(`${name} is "${written}"; it must be a whole number, ${least} or more.`);
    return Number(written);
  };
  return {
    // Less would refuse for ever what one upload may hold.
    bytes: quota('BREAKBOOK_BYTES_AN_HOUR', USUAL_QUOTAS.bytes, UPLOAD_BOUNDS.bytes),
    exports: quota('BREAKBOOK_EXPORTS_AN_HOUR', USUAL_QUOTAS.exports, 1),
    runs: quota('BREAKBOOK_RUNS_AN_HOUR', USUAL_QUOTAS.runs, 1),
  };
}

/**
 * By whose word people may sign in (OpenID Connect), if by anybody's: all of BREAKBOOK_OIDC_ISSUER, _CLIENT,
 * _SECRET_FILE and _NAME, or none. The secret stands in a file, since an environment is read by whoever lists processes.
 */
function providerFrom(environment: NodeJS.ProcessEnv) {
  const named = ['ISSUER', 'CLIENT', 'SECRET_FILE', 'NAME'].map((one) => `BREAKBOOK_OIDC_${one}`);
  const [issuer, clientId, secretFile, name] = named.map((one) => environment[one] || undefined);
  if (!issuer && !clientId && !secretFile && !name) return undefined;
  if (!issuer || !clientId || !secretFile || !name)
    throw new WrongSetting(`${named.join(', ')} belong together; set all of them or none.`);
  if (!URL.canParse(issuer) || !/^(https:|http:\/\/(localhost|127\.0\.0\.1)[:/])/.test(issuer))
    throw new WrongSetting(`BREAKBOOK_OIDC_ISSUER is "${issuer}"; it must be the https address of the provider.`);
  if (!fs.existsSync(secretFile))
    throw new WrongSetting(`BREAKBOOK_OIDC_SECRET_FILE is "${secretFile}"; there is no such file.`);
  return { issuer, clientId, clientSecret: fs.readFileSync(secretFile, 'utf8').trim(), name };
}
