import { Refusal } from '@breakbook/lab';
import type { Configuration } from 'openid-client';
import type { PublicAddress } from '../session-cookie.js';

/** A provider whose word people may sign in by (OpenID Connect). Without one nothing is ever asked outside. */
export interface ProviderSettings {
  issuer: string;
  clientId: string;
  clientSecret: string;
  /** What people call it, as in "Sign in with …". */
  name: string;
}

/** The console's page to which the provider sends people back. */
export const RETURN_PAGE = '/signing-in';

/** In seconds; a provider that does not answer must not hold a sign-in. */
const PATIENCE = 8;

/** Loaded at the first sign-in by it, as is what the provider says of itself and its keys. */
const openid = () => import('openid-client');

/** What somebody is at a provider. */
export interface OutsideName {
  issuer: string;
  subject: string;
}

/** What is kept between sending somebody to the provider and their return. */
export interface Journey {
  state: string;
  nonce: string;
  verifier: string;
}

/**
 * The provider, asked in the way of the authorization code with PKCE (OpenID Connect Core 1.0, 3.1; RFC 7636): the
 * browser carries a code that is of no use without the verifier and the secret kept here; the ID token comes straight
 * from the provider, and its signature, issuer, audience, times and nonce are checked against the keys it publishes.
 */
export class Provider {
  #known: Promise<Configuration> | undefined;

  constructor(
    readonly settings: ProviderSettings,
    private readonly address: PublicAddress,
  ) {}

  /** Where to send somebody, and what must come back with them. */
  async begin(host: string): Promise<{ address: string; journey: Journey }> {
    const known = await this.#configuration();
    const oidc = await openid();
    const journey = {
      state: oidc.randomState(),
      nonce: oidc.randomNonce(),
      verifier: oidc.randomPKCECodeVerifier(),
    };
    const address = oidc.buildAuthorizationUrl(known, {
      redirect_uri: this.#returnsTo(host),
      scope: 'openid',
      state: journey.state,
      nonce: journey.nonce,
      code_challenge: await oidc.calculatePKCECodeChallenge(journey.verifier),
      code_challenge_method: 'S256',
    });
    return { address: address.href, journey };
  }

  /** Who came back. `query` is what the provider wrote behind the address of the page. */
  async finish(host: string, query: string, { state, nonce, verifier }: Journey): Promise<OutsideName> {
    const known = await this.#configuration();
    const oidc = await openid();
    const tokens = await oidc
      .authorizationCodeGrant(known, new URL(`${this.#returnsTo(host)}?${query}`), {
        expectedState: state,
        expectedNonce: nonce,
        pkceCodeVerifier: verifier,
        idTokenExpected: true,
      })
      .catch((): never => {
        throw new Refusal({
          code: 'auth.failed',
          detail: `What came back from ${this.settings.name} does not fit what was asked there.`,
          action: 'Begin signing in again.',
        });
      });
    const claims = tokens.claims();
    if (!claims) throw new Error('The library let an answer without ID token through.');
    return { issuer: claims.iss, subject: claims.sub };
  }

  #returnsTo(host: string): string {
    return `${this.address.origin ?? `http://${host}`}${RETURN_PAGE}`;
  }

  #configuration(): Promise<Configuration> {
    this.#known ??= this.#discover().catch((error: unknown) => {
      // Asked again at the next sign-in: it may be away for a while only.
      this.#known = undefined;
      throw error;
    });
    return this.#known;
  }

  async #discover(): Promise<Configuration> {
    const { issuer, clientId, clientSecret, name } = this.settings;
    const oidc = await openid();
    const server = new URL(issuer);
    return oidc
      .discovery(server, clientId, clientSecret, oidc.ClientSecretBasic(clientSecret), {
        timeout: PATIENCE,
        execute: [
          // The ID token's signature is looked at, too, though it comes over a connection to the provider itself.
          oidc.enableNonRepudiationChecks,
          // Without TLS only a provider on this very machine is asked.
          ...(isOwnMachine(server) ? [oidc.allowInsecureRequests] : []),
        ],
      })
      .catch((): never => {
        throw new Refusal({
          code: 'service.unavailable',
          detail: `${name} does not answer, so nobody can sign in by it now.`,
          action: 'Sign in with your passphrase, or try again later.',
        });
      });
  }
}

function isOwnMachine({ protocol, hostname }: URL): boolean {
  return protocol === 'http:' && ['localhost', '127.0.0.1', '[::1]'].includes(hostname);
}
