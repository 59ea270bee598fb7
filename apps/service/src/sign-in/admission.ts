import { type Duty, Refusal } from '@breakbook/lab';
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import type { RigTokens } from '../rigs/tokens/rig-tokens.js';
import type { RouteDuty } from './duty.decorator.js';
import type { RouteAdmission } from './route-admissions.js';
import { refuseOtherSites } from './same-origin.js';
import { requireFresh, requireSecondFactor } from './second-factor/second-factor-needed.js';
import { type PublicAddress, secretIn } from './session-cookie.js';
import type { Session, Sessions } from './sessions.js';
import type { SignedInActor } from './signed-in.decorator.js';

declare module 'fastify' {
  interface FastifyContextConfig {
    admission?: RouteAdmission;
  }
}

/** An end of a session acts within a second, in ms. */
const STREAM_LOOKED_AT = 800;

/**
 * The one door: who calls, and may they? It stands before the body is read, so that nobody unknown can have one read,
 * and before every route, so that one that says nothing about its duty is closed to everybody.
 */
export function guardRoutes(
  fastify: FastifyInstance,
  admissions: Map<string, RouteAdmission>,
  found: { sessions: Sessions; tokens: RigTokens; address: PublicAddress },
): void {
  fastify.addHook('onRoute', (route) => {
    const [first, ...others] = [route.method]
      .flat()
      .map((one) => admissions.get(`${one === 'HEAD' ? 'GET' : one} ${route.url}`));
    // Registered for several methods at once, a route is as open as the decorators say only where they say one thing.
    if (first && others.every((one) => one === first)) route.config = { ...route.config, admission: first };
  });
  fastify.addHook('onRequest', async (request) => {
    if (request.is404) return;
    refuseOtherSites(request, found.address);
    const { admission } = request.routeOptions.config;
    if (admission?.duty === undefined)
      throw forbidden('This address is closed: nobody has been given the duty to use it.');
    if (admission.duty === 'anybody') return;
    request.actor =
      request.headers.authorization === undefined
        ? await bySession(request, admission, admission.duty, found)
        : await byToken(request.headers.authorization, admission.duty, found.tokens);
  });
  fastify.addHook('onSend', async (request, reply) => {
    if (isEventStream(reply)) endWithSession(request, reply, found);
    // RFC 9110, 15.5.2 asks for it; a scheme that browsers know would make them ask for a password of their own.
    if (reply.statusCode === 401) reply.header('www-authenticate', 'Bearer realm="breakbook"');
  });
}

function isEventStream(reply: FastifyReply): boolean {
  return String(reply.getHeader('content-type')).startsWith('text/event-stream');
}

/** A stream of events goes on without any further request, so it is looked up whether its session does. */
function endWithSession(
  request: FastifyRequest,
  reply: FastifyReply,
  { sessions, address }: { sessions: Sessions; address: PublicAddress },
): void {
  const secret = secretIn(request, address);
  if (secret === undefined) return;
  const look = setInterval(() => {
    sessions.goesOn(secret).then(
      (on) => on || reply.raw.destroy(),
      () => reply.raw.destroy(), // What cannot be looked up is not let through.
    );
  }, STREAM_LOOKED_AT).unref();
  reply.raw.once('close', () => clearInterval(look));
}

async function bySession(
  request: FastifyRequest,
  admission: RouteAdmission,
  duty: Exclude<RouteDuty, 'anybody'>,
  { sessions, address }: { sessions: Sessions; address: PublicAddress },
): Promise<SignedInActor> {
  const secret = secretIn(request, address);
  const session = secret === undefined ? undefined : await sessions.find(secret);
  if (!session)
    throw new Refusal({
      code: 'auth.required',
      detail: secret === undefined ? 'Nobody is signed in.' : 'This session has ended.',
      action: 'Sign in, then do it again.',
    });
  if (session.temporary && !admission.givenPassphrase)
    throw new Refusal({
      code: 'auth.forbidden',
      detail: 'Your passphrase was given to you, so somebody else has seen it.',
      action: 'Choose one of your own first (POST /api/me/passphrase).',
    });
  requireSecondFactor(session, admission);
  if (duty !== 'signed in') requireDuty(duty, session.duties);
  if (admission.again) requireFresh(session, admission);
  return actorOf(session);
}

async function byToken(
  authorization: string,
  duty: Exclude<RouteDuty, 'anybody'>,
  tokens: RigTokens,
): Promise<SignedInActor> {
  const token = /^Bearer ([\w-]{1,200})$/i.exec(authorization)?.[1];
  if (token === undefined)
    throw new Refusal({
      code: 'auth.required',
      detail: 'The header Authorization is not one this service reads.',
      expected: 'Authorization: Bearer <token of the rig>',
    });
  const actor = await tokens.actorOf(token);
  if (duty === 'signed in') throw forbidden('A rig sends runs; this address is for people.');
  requireDuty(duty, actor.duties);
  return actor;
}

function requireDuty(needed: readonly Duty[], held: readonly Duty[]): void {
  if (needed.some((duty) => held.includes(duty))) return;
  throw forbidden(
    `This needs the duty ${needed.join(' or ')}; you have ${held.length === 0 ? 'none' : held.join(', ')}.`,
    'Have somebody with that duty do it, or ask an administrator of the lab for it.',
  );
}

function actorOf({ id, labId, personId, person, duties, second, askedOfEveryone }: Session): SignedInActor {
  return { labId, personId, person, duties, sessionId: id, second, askedOfEveryone };
}

function forbidden(detail: string, action?: string): Refusal {
  return new Refusal({ code: 'auth.forbidden', detail, ...(action === undefined ? {} : { action }) });
}
