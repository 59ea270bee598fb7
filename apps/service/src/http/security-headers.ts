import type { FastifyInstance } from 'fastify';

const POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "frame-src 'self'",
  "base-uri 'none'",
  "form-action 'self'",
  "frame-ancestors 'self'",
].join('; ');

/** Of what came from elsewhere and is handed on: it is shown by itself, and nothing in it is run. */
export const SANDBOX = "sandbox; default-src 'none'";

/** On every answer, also on those that come before there is a request. */
export const SECURITY_HEADERS = {
  'content-security-policy': POLICY,
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
};

/** From now on by TLS alone; where the service has an address of its own. */
export const TLS_ALONE = { 'strict-transport-security': 'max-age=31536000' };

/**
 * Nothing from elsewhere runs, nothing is guessed from content, and what the interface answers stays in no cache of a
 * shared computer. No header lets another site's page read an answer.
 */
export function sendSecurityHeaders(fastify: FastifyInstance, secure: boolean): void {
  fastify.addHook('onSend', async (request, reply) => {
    if (secure) reply.headers(TLS_ALONE);
    if (request.url.startsWith('/api') && !reply.hasHeader('cache-control')) reply.header('cache-control', 'no-store');
    // A route may bind its answer tighter than a page, never looser.
    const own = reply.getHeader('content-security-policy');
    reply.headers(SECURITY_HEADERS);
    if (own === SANDBOX) reply.header('content-security-policy', SANDBOX);
  });
}
