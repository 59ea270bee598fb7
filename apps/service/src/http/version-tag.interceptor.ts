import { type CallHandler, type ExecutionContext, Injectable, type NestInterceptor } from '@nestjs/common';
import type { FastifyReply } from 'fastify';
import { map, type Observable } from 'rxjs';

/** Sends the version of what is answered as its ETag, to be given back in If-Match with a change. */
@Injectable()
export class VersionTag implements NestInterceptor {
  intercept(context: ExecutionContext, next: CallHandler): Observable<unknown> {
    const reply = context.switchToHttp().getResponse<FastifyReply>();
    return next.handle().pipe(
      map((answer: unknown) => {
        if (typeof answer === 'object' && answer !== null && 'version' in answer)
          reply.header('etag', `"${answer.version}"`);
        return answer;
      }),
    );
  }
}
