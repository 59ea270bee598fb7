import { Refusal } from '@breakbook/lab';
import { type CallHandler, type ExecutionContext, Injectable, type NestInterceptor } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import type { Observable } from 'rxjs';
import { accepts } from './accepted-types.js';
import { refuseQuery } from './queried-by.js';
import { answerTypesOf, argumentsOf } from './route-metadata.js';

/**
 * Before any route: can its answer be given in the form asked for, and does it take a query at all? Checked here once,
 * so that no route can forget it.
 */
@Injectable()
export class RouteForm implements NestInterceptor {
  intercept(context: ExecutionContext, next: CallHandler): Observable<unknown> {
    const request = context.switchToHttp().getRequest<FastifyRequest>();
    const types = answerTypesOf(context.getHandler());
    if (!types.some((type) => accepts(request.headers.accept, type)))
      throw new Refusal({
        code: 'request.not-acceptable',
        detail: `This address answers in ${types.join(' or ')} only. Ask for that, or send no Accept header.`,
        expected: types.join(', '),
      });
    const readsQuery = argumentsOf(context.getClass(), context.getHandler().name).some(({ from }) => from === 'query');
    if (!readsQuery) refuseQuery(request.query as Record<string, unknown>);
    return next.handle();
  }
}
