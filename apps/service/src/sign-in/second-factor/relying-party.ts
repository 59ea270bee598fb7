import { Refusal } from '@breakbook/lab';
import type { FastifyRequest } from 'fastify';
import type { PublicAddress } from '../session-cookie.js';

/** Whom a passkey is made for. */
export interface RelyingParty {
  /** A name, as passkeys are for no number (Web Authentication, 5.1.2). */
  id: string;
  origin: string;
}

/** The service as its address names it: the one it was given, or this machine under its own name. */
export function relyingParty({ headers: { host = '' } }: FastifyRequest, { origin }: PublicAddress): RelyingParty {
  if (origin !== undefined) return { id: new URL(origin).hostname, origin };
  if (/^localhost(:\d{1,5})?$/.test(host)) return { id: 'localhost', origin: `http://${host}` };
  throw new Refusal({
    code: 'state.conflict',
    detail: 'Passkeys are made for a name, and you came here by a number or by another name.',
    action: 'Open the service as http://localhost with its port, or as the address that BREAKBOOK_ORIGIN names.',
  });
}
