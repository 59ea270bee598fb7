import { Refusal } from '@breakbook/lab';
import multipart from '@fastify/multipart';
import { RouteConfig } from '@nestjs/platform-fastify';
import type { FastifyInstance } from 'fastify';
import { UPLOAD_BOUNDS } from './bounds.js';

const FORM = 'multipart/form-data';

/** A route that takes a form instead of JSON. */
export const TakesForm = () => RouteConfig({ takes: [FORM], largestBody: UPLOAD_BOUNDS.bytes });

/** Lets routes marked so take forms, and no other; register it after the readers of other bodies. */
export async function readForms(fastify: FastifyInstance): Promise<void> {
  await fastify.register(multipart);
  fastify.addHook('preParsing', async (request) => {
    const type = request.headers['content-type']?.split(';')[0]?.trim().toLowerCase();
    if (type !== FORM || request.is404 || request.routeOptions.config.takes?.includes(FORM)) return;
    throw new Refusal({ code: 'body.media-type', detail: 'This address takes application/json.' });
  });
}
