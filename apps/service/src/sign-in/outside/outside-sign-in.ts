import { Refusal, shown } from '@breakbook/lab';
import { newId } from '@breakbook/records';
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { digestOfSecret, drawSecret } from '../drawn-secret.js';
import { LabsOfSignIn } from '../labs-of-sign-in.js';
import { Sessions } from '../sessions.js';
import { type Browser, type Myself, SignInService } from '../sign-in.service.js';
import { type Journey, type OutsideName, Provider } from './provider.js';
import { PROVIDER } from './provider.token.js';

/** So long somebody may be away at the provider. */
const AWAY = '10 minutes';

/** Signing in by the word of the lab's provider. */
@Injectable()
export class OutsideSignIn {
  constructor(
    private readonly dataSource: DataSource,
    private readonly labs: LabsOfSignIn,
    private readonly sessions: Sessions,
    private readonly signIn: SignInService,
    @Inject(PROVIDER) private readonly provider: Provider | undefined,
  ) {}

  /** What a sign-in page needs to know. */
  async ways(): Promise<{ severalLabs: boolean; outside: { name: string } | null }> {
    const { name } = this.provider?.settings ?? {};
    return { severalLabs: await this.labs.several(), outside: name === undefined ? null : { name } };
  }

  /** Where to send the browser, and the secret by which it is known again. */
  async begin(lab: string | undefined, host: string): Promise<{ address: string; secret: string }> {
    const provider = this.#provider();
    const { labId, person } = await this.labs.whereSignsIn(lab, '');
    const { address, journey } = await provider.begin(host);
    const secret = drawSecret();
    // Of a lab that is not there nothing is kept, so nobody comes back to it; until then it looks like any other.
    if (person !== '') return { address, secret };
    await this.dataSource.query('delete from outside_sign_in where began_at < now() - $1::interval', [AWAY]);
    await this.dataSource.query(
      `insert into outside_sign_in (lab_id, id, sha256, state, nonce, verifier, began_at)
       values ($1, $2, $3, $4, $5, $6, now())`,
      [labId, newId(), digestOfSecret(secret), journey.state, journey.nonce, journey.verifier],
    );
    return { address, secret };
  }

  /** Begins a session for whoever came back, if the lab knows them by what the provider calls them. */
  async finish(
    secret: string | undefined,
    { query, host }: { query: string; host: string },
    { before, device }: Browser,
  ): Promise<{ secret: string; me: Myself }> {
    const provider = this.#provider();
    const journey = secret === undefined ? undefined : await this.#taken(secret);
    if (!journey)
      throw new Refusal({
        code: 'auth.failed',
        detail: 'This browser has begun no sign-in within the last ten minutes, or it has come back from it already.',
        action: 'Begin signing in again.',
      });
    const name = await provider.finish(host, query, journey);
    const personId = await this.#personOf(journey.labId, name);
    if (before !== undefined) await this.sessions.end(before);
    const begun = await this.sessions.begin(journey.labId, personId, device, false);
    return { secret: begun, me: await this.signIn.whoHas(begun) };
  }

  #provider(): Provider {
    if (this.provider) return this.provider;
    throw new Refusal({
      code: 'request.not-found',
      detail: 'This service signs nobody in by the word of another.',
      action: 'Sign in with name and passphrase.',
    });
  }

  /** A return is taken once. */
  async #taken(secret: string): Promise<(Journey & { labId: string }) | undefined> {
    const [[found] = []] = await this.dataSource.query<[(Journey & { labId: string })[], number]>(
      `delete from outside_sign_in where sha256 = $1 and began_at > now() - $2::interval
       returning lab_id as "labId", state, nonce, verifier`,
      [digestOfSecret(secret), AWAY],
    );
    return found;
  }

  async #personOf(labId: string, { issuer, subject }: OutsideName): Promise<string> {
    const [found] = await this.dataSource.query<{ personId: string }[]>(
      `select said.record_id as "personId" from outside_identity said
       join credential on credential.lab_id = said.lab_id and credential.id = said.record_id
       where said.lab_id = $1 and said.issuer = $2 and said.subject = $3
         and not exists (select from outside_identity later where later.lab_id = said.lab_id
           and later.record_id = said.record_id and later.version > said.version)`,
      [labId, issuer, subject],
    );
    if (found) return found.personId;
    throw new Refusal({
      code: 'auth.failed',
      found: shown(subject),
      detail: `At ${shown(issuer)} you are "${shown(subject)}", and nobody in this lab is known by that.`,
      action: 'Tell an administrator of the lab both, who links you to your name here.',
    });
  }
}
