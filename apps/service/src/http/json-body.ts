import { Refusal, readJson, shown } from '@breakbook/lab';
import type { FastifyInstance, FastifyRequest } from 'fastify';
import { refuseUnfitText } from './fit-text.js';

declare module 'fastify' {
  interface FastifyContextConfig {
    /** Media types a route takes, where that is not JSON. */
    takes?: readonly string[];
    /** The body is handed on as it came, to be read by `jsonBody` in a thread: a long one takes its time. */
    unread?: true;
    /** Largest body of a route in bytes, where it is not the house's own. */
    largestBody?: number;
  }
}

/** Bodies are JSON, read strictly, but where a route says that it takes something else. */
export function readBodies(fastify: FastifyInstance): void {
  fastify.removeAllContentTypeParsers();
  fastify.addHook('onRoute', (route) => {
    if (route.config?.largestBody !== undefined) route.bodyLimit = route.config.largestBody;
  });
  fastify.addContentTypeParser(
    'application/json',
    { parseAs: 'buffer' },
    async (request: FastifyRequest, body: Buffer) => {
      if (takes(request)) throw wrongType(request);
      refuseCoded(request.headers['content-encoding']);
      return request.routeOptions.config.unread ? body : jsonBody(body);
    },
  );
  fastify.addContentTypeParser(
    ['image/png', 'image/jpeg', 'video/mp4', 'video/quicktime', 'application/pdf', 'text/csv'],
    { parseAs: 'buffer' },
    async (request: FastifyRequest, body: Buffer) => {
      const type = request.headers['content-type']?.split(';')[0]?.trim().toLowerCase() ?? '';
      if (!takes(request)?.includes(type)) throw wrongType(request);
      return body;
    },
  );
}

/** One JSON document, as it was sent: nothing doubled, nothing rounded to infinity, nothing that cannot be kept. */
export function jsonBody(bytes: Uint8Array): unknown {
  if (bytes.byteLength === 0)
    throw new Refusal({ code: 'body.empty', detail: 'The body is empty; one JSON document is needed.' });
  try {
    const document = readJson(bytes, 'the body');
    refuseUnfitText(document);
    return document;
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    // The body has no file name, and a program that reads the answer must not look for one.
    throw new Refusal(
      error.problems.map(({ file: _, ...problem }) => problem),
      error.problemCount,
    );
  }
}

function refuseCoded(encoding: string | undefined): void {
  if (encoding === undefined || encoding === 'identity') return;
  throw new Refusal({
    code: 'body.media-type',
    found: shown(encoding),
    detail: `The body is compressed (${shown(encoding)}). Send it as it is, without content-encoding.`,
  });
}

function takes(request: FastifyRequest): readonly string[] | undefined {
  return request.routeOptions.config.takes;
}

function wrongType(request: FastifyRequest): Refusal {
  return new Refusal({
    code: 'body.media-type',
    detail: `This address takes ${takes(request)?.join(' or ') ?? 'application/json'}.`,
  });
}
