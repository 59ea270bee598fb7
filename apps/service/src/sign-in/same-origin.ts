import { Refusal, shown } from '@breakbook/lab';
import type { FastifyRequest } from 'fastify';
import type { PublicAddress } from './session-cookie.js';

const SAFE = new Set(['GET', 'HEAD', 'OPTIONS']);

/**
 * Refuses a change that a page of another site asks for. Browsers say where a request comes from (Fetch standard:
 * Sec-Fetch-Site and Origin) and let no page say otherwise; what says nothing is no browser and carries no cookie by
 * itself. The cookie's SameSite=Strict keeps the same door from the other side.
 */
export function refuseOtherSites(request: FastifyRequest, { origin }: PublicAddress): void {
  if (SAFE.has(request.method)) return;
  const { origin: from, host, 'sec-fetch-site': site } = request.headers;
  const ours = origin === undefined ? host : new URL(origin).host;
  if (from === undefined ? site === undefined || site === 'same-origin' || site === 'none' : hostOf(from) === ours)
    return;
  throw new Refusal({
    code: 'auth.forbidden',
    detail: `This request comes from a page of another site${from === undefined ? '' : ` (${shown(from)})`}, which may change nothing here.`,
    action: 'Open the service at its own address and do it there.',
  });
}

function hostOf(origin: string): string | undefined {
  try {
    return new URL(origin).host;
  } catch {
    return undefined; // "null", from a page without origin.
  }
}
