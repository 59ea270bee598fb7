import { shown } from '@breakbook/lab';
import type { FastifyRequest } from 'fastify';

/** What a browser calls itself, so that its owner can tell one session from another. */
export function deviceOf({ headers }: FastifyRequest): string {
  return shown(headers['user-agent'] ?? '');
}
