import { type ProblemCode, Refusal } from '@breakbook/lab';
import type { FastifyError, FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { frameworkRefusal, PROBLEM_TYPE, problemDetails } from './problem-details.js';
import { SECURITY_HEADERS, TLS_ALONE } from './security-headers.js';

/** An address is longer only by mistake; the head in which it stands ends at 16 KiB. */
const LONGEST_ADDRESS = 8 * 1024;

/**
 * What is decided before there is a route: framing, address, method. Options and hooks of the bare server. No hook sees
 * what is answered here.
 */
export function framing(secure: boolean) {
  const always = { ...SECURITY_HEADERS, ...(secure ? TLS_ALONE : {}), 'cache-control': 'no-store' };
  const raw = Object.entries(always)
    .map(([name, value]) => `${name}: ${value}\r\n`)
    .join('');
  return {
    clientErrorHandler(error: NodeJS.ErrnoException, socket: NodeJS.WritableStream & { destroyed?: boolean }): void {
      if (error.code === 'ECONNRESET' || socket.destroyed || !socket.writable) return;
      const status = error.code === 'HPE_HEADER_OVERFLOW' ? 431 : 400;
      const body = JSON.stringify(problemDetails(frameworkRefusal(status) ?? malformed('request.malformed'), status));
      const reason = status === 431 ? 'Request Header Fields Too Large' : 'Bad Request';
      // What follows on this connection cannot be told from what came before it.
      socket.end(
        `HTTP/1.1 ${status} ${reason}\r\nConnection: close\r\nContent-Type: ${PROBLEM_TYPE}\r\n` +
          `${raw}Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`,
      );
    },
    frameworkErrors(error: FastifyError, _request: FastifyRequest, reply: FastifyReply): void {
      const status = error.statusCode ?? 400;
      const refusal = frameworkRefusal(status) ?? malformed('request.malformed');
      reply
        .status(status)
        .headers({ ...always, 'content-type': PROBLEM_TYPE })
        .send(JSON.stringify(problemDetails(refusal, status)));
    },
  };
}

function malformed(code: ProblemCode): Refusal {
  return new Refusal({ code, detail: 'The request could not be read. Check its form and send it again.' });
}

/** Refuses an address that is too long or badly escaped, and a method that an address does not take. */
export function checkFraming(fastify: FastifyInstance): void {
  const routes: { method: string; path: RegExp }[] = [];
  fastify.addHook('onRoute', ({ method, url }) => {
    for (const one of [method].flat()) routes.push({ method: one, path: pathOf(url) });
  });
  fastify.addHook('onRequest', async (request, reply) => {
    const [path = '', query = ''] = request.url.split(/\?(.*)/s);
    if (request.url.length > LONGEST_ADDRESS) throw frameworkRefusal(414);
    if (!isEscapedWell(query))
      throw new Refusal({
        code: 'request.malformed',
        detail: 'The query holds a % that begins no escape, or an escape that is not UTF-8. Escape each % as %25.',
      });
    if (announcesBody(request) && !hasLength(request)) throw frameworkRefusal(411);
    if (!request.is404) return;
    const taken = [...new Set(routes.filter((route) => route.path.test(path)).map(({ method }) => method))].sort();
    if (taken.length === 0) return;
    reply.header('allow', taken.join(', '));
    throw new Refusal({
      code: 'request.method',
      detail: `This address does not take ${request.method}. It takes ${taken.join(', ')}.`,
      expected: taken.join(', '),
    });
  });
}

function announcesBody({ method, headers }: FastifyRequest): boolean {
  return method !== 'GET' && method !== 'HEAD' && headers['content-type'] !== undefined;
}

/** Without either header a request has no body (RFC 9112, 6.3), and whatever follows it would be read as the next one. */
function hasLength({ headers }: FastifyRequest): boolean {
  return headers['content-length'] !== undefined || headers['transfer-encoding'] !== undefined;
}

function isEscapedWell(query: string): boolean {
  try {
    decodeURIComponent(query);
    return true;
  } catch {
    return false;
  }
}

/** A route's address as a pattern: each `:name` stands for part of a path, `*` for the rest of it. */
function pathOf(url: string): RegExp {
  const pattern = url
    .replaceAll(/[.+?^${}()|[\]\\]/g, String.raw`\$&`)
    .replaceAll(/:[A-Za-z]+/g, '[^/]+')
    .replaceAll('*', '.*');
  return new RegExp(`^${pattern}$`);
}
