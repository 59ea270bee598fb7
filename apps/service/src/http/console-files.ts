import fs from 'node:fs';
import path from 'node:path';
import fastifyStatic from '@fastify/static';
import type { FastifyInstance } from 'fastify';
import { OPEN } from '../sign-in/route-admissions.js';

/**
 * Serves the built console. Its files carry a digest in their names and never change; the page that names them is
 * asked for anew each time, and stands in for every address the console's own router knows.
 */
export async function serveConsole(fastify: FastifyInstance, folder: string): Promise<void> {
  if (!fs.existsSync(path.join(folder, 'index.html'))) return;
  fastify.addHook('onRoute', (route) => {
    const { rootPath } = (route.config ?? {}) as { rootPath?: string };
    if (rootPath !== undefined) route.config = { ...route.config, admission: OPEN };
  });
  await fastify.register(fastifyStatic, {
    root: folder,
    wildcard: false,
    // A range that lies outside a file is an error of the reader of files, which no problem code is for; nobody asks for part of a page.
    acceptRanges: false,
    setHeaders: (reply, file) => {
      const named = path.relative(folder, file).startsWith(`assets${path.sep}`);
      reply.header('cache-control', named ? 'public, max-age=31536000, immutable' : 'no-cache');
    },
  });
}

/** A page of the console: asked for by a browser, not under the interface's own addresses. */
export function isConsolePage(method: string, url: string, accept: string | undefined): boolean {
  if (method !== 'GET' && method !== 'HEAD') return false;
  return !/^\/(api|health|assets|problems)(\/|$|\?)/.test(url) && (accept ?? '').includes('text/html');
}
