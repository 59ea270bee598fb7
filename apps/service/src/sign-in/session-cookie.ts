import type {} from '@fastify/cookie';
import type { FastifyReply, FastifyRequest } from 'fastify';

/** Where people reach the service, if not on this machine alone. */
export interface PublicAddress {
  /** Such as https://breakbook.saltmarsh.example, in front of which TLS ends. */
  origin?: string;
}

export function isSecure({ origin }: PublicAddress): boolean {
  return origin?.startsWith('https:') ?? false;
}

/**
 * The cookie's name. `__Host-` makes browsers hold to it that it came over TLS from this very host; they take no cookie
 * of such a name over plain HTTP, which is what this machine's own address speaks.
 */
export function cookieName(address: PublicAddress): string {
  return isSecure(address) ? '__Host-breakbook' : 'breakbook';
}

/** The secret a request's cookie carries. */
export function secretIn(request: FastifyRequest, address: PublicAddress): string | undefined {
  return request.cookies[cookieName(address)];
}

/** Gives a browser its session; it keeps it until it is closed, and the service ends it before that. */
export function setSessionCookie(reply: FastifyReply, address: PublicAddress, secret: string): void {
  reply.setCookie(cookieName(address), secret, attributes(address));
}

export function clearSessionCookie(reply: FastifyReply, address: PublicAddress): void {
  reply.clearCookie(cookieName(address), attributes(address));
}

/** Lets a browser be known again when it comes back from the provider; its own page sends it, so it goes to no other site. */
export function setAwayCookie(reply: FastifyReply, address: PublicAddress, secret: string): void {
  reply.setCookie(`${cookieName(address)}-away`, secret, { ...attributes(address), maxAge: 600 });
}

export function awaySecretIn(request: FastifyRequest, address: PublicAddress): string | undefined {
  return request.cookies[`${cookieName(address)}-away`];
}

export function clearAwayCookie(reply: FastifyReply, address: PublicAddress): void {
  reply.clearCookie(`${cookieName(address)}-away`, attributes(address));
}

function attributes(address: PublicAddress) {
  return { httpOnly: true, secure: isSecure(address), sameSite: 'strict', path: '/' } as const;
}
