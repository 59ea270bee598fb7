import rateLimit from '@fastify/rate-limit';
import type { FastifyInstance } from 'fastify';
import { RetryLater } from './retry-later.js';

/** How much one network address may ask for. */
export interface RequestLimits {
  perMinute: number;
  /** Each makes the service compute for a twentieth of a second, whoever asks. */
  signInsPerMinute: number;
}

/** A page asks for some twenty things, a rig's computer for one at a time; a lab stands behind one address. */
export const USUAL_LIMITS: RequestLimits = { perMinute: 6000, signInsPerMinute: 60 };

const MINUTE = 60_000;

const SIGN_INS = new Set(['/api/sign-in', '/api/sign-in/outside', '/api/sign-in/outside/return']);

/** Refuses an address that asks too much, before anything is done for it: before it is looked up who calls. */
export async function limitRequests(fastify: FastifyInstance, limits: RequestLimits): Promise<void> {
  await fastify.register(rateLimit, { global: false });
  const requests = fastify.createRateLimit({ max: limits.perMinute, timeWindow: MINUTE });
  const signIns = fastify.createRateLimit({ max: limits.signInsPerMinute, timeWindow: MINUTE });
  fastify.addHook('onRequest', async (request) => {
    refuseTooMany(await requests(request));
    if (SIGN_INS.has(request.routeOptions.url ?? '')) refuseTooMany(await signIns(request));
  });
}

function refuseTooMany(limit: Awaited<ReturnType<ReturnType<FastifyInstance['createRateLimit']>>>): void {
  if (limit.isAllowed || !limit.isExceeded) return;
  throw new RetryLater(Math.max(1, limit.ttlInSeconds), {
    code: 'rate.limited',
    detail: 'More was asked for from this network address within a minute than the service takes.',
    action: 'Wait as long as Retry-After says, then go on more slowly.',
  });
}
