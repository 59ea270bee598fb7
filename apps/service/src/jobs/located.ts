import type { FastifyReply } from 'fastify';
import type { JobAnswer } from './job.js';

/** Says where the work that was asked for can be followed. */
export function located(reply: FastifyReply, job: JobAnswer): JobAnswer {
  reply.header('location', `/api/jobs/${job.id}`);
  return job;
}
