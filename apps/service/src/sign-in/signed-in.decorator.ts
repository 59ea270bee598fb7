import type { Duty } from '@breakbook/lab';
import type { Actor } from '@breakbook/records';
import { createParamDecorator, type ExecutionContext } from '@nestjs/common';
import type { Session } from './sessions.js';

/** The person (or the rig) behind a request, in their lab. */
export interface SignedInActor extends Actor {
  person: string;
  duties: readonly Duty[];
  /** The session, where a person signed in, and what of the second factor is known in it. */
  sessionId?: string;
  second?: Session['second'];
  askedOfEveryone?: boolean;
  /** The rig, where its computer called with a token. */
  rig?: { id: string; rig: string };
}

declare module 'fastify' {
  interface FastifyRequest {
    /** Set once the session or token is checked. */
    actor?: SignedInActor;
  }
}

/** Hands a route the person who called it. */
export const SignedIn = createParamDecorator((_: unknown, context: ExecutionContext): SignedInActor => {
  const { actor } = context.switchToHttp().getRequest<{ actor?: SignedInActor }>();
  if (!actor) throw new Error('A route asked who signed in, and was let through without anybody.');
  return actor;
});
