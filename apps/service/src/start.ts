import 'reflect-metadata';
import { openDataSource, PostgresRawStore } from '@breakbook/records';
import fastifyCookie from '@fastify/cookie';
import { NestFactory } from '@nestjs/core';
import { FastifyAdapter, type NestFastifyApplication } from '@nestjs/platform-fastify';
import type { FastifyInstance } from 'fastify';
import type pg from 'pg';
import { type Logger, pino } from 'pino';
import { type KeyPlaces, serviceOn } from './app.module.js';
import { isConsolePage, serveConsole } from './http/console-files.js';
import { checkFraming, framing } from './http/framing.js';
import { readBodies } from './http/json-body.js';
import { NestLog } from './http/nest-log.js';
import { ProblemFilter } from './http/problem-filter.js';
import { limitRequests, type RequestLimits, USUAL_LIMITS } from './http/request-limits.js';
import { RouteForm } from './http/route-form.interceptor.js';
import { sendSecurityHeaders } from './http/security-headers.js';
import { type CallerQuotas, USUAL_QUOTAS } from './quotas/quotas.js';
import { RigTokens } from './rigs/tokens/rig-tokens.js';
import { guardRoutes } from './sign-in/admission.js';
import type { ProviderSettings } from './sign-in/outside/provider.js';
import { admissionsOf, type RouteAdmission } from './sign-in/route-admissions.js';
import { isSecure } from './sign-in/session-cookie.js';
import { Sessions } from './sign-in/sessions.js';
import { readForms } from './uploads/forms.js';

export interface ServiceOptions {
  database: pg.ClientConfig;
  keys: KeyPlaces;
  host: string;
  port: number;
  /** The built console; without it only the interface is served. */
  consoleFolder?: string;
  /** Where people reach the service, if not on this machine alone: the https address in front of which TLS ends. */
  origin?: string;
  /** By whose word people may sign in; without one the service asks nothing outside. */
  provider?: ProviderSettings;
  limits?: RequestLimits;
  quotas?: CallerQuotas;
  log?: Logger;
}

export interface RunningService {
  url: string;
  app: NestFastifyApplication;
  /** Every route that answers, with what it asks of its caller. */
  routes: ServedRoute[];
  close(): Promise<void>;
}

export interface ServedRoute {
  method: string;
  url: string;
  admission?: RouteAdmission | undefined;
}

/** Starts the service on a migrated database. */
export async function startService(options: ServiceOptions): Promise<RunningService> {
  const log = options.log ?? pino({ level: process.env.BREAKBOOK_LOG ?? 'warn' });
  const address = options.origin === undefined ? {} : { origin: options.origin };
  const dataSource = await openDataSource(options.database);
  try {
    const adapter = new FastifyAdapter({
      ...framing(isSecure(address)),
      loggerInstance: log,
      bodyLimit: 256 * 1024,
      routerOptions: { maxParamLength: 200 },
      // Only what stands in front to end TLS may say whose request it passes on.
      trustProxy: isSecure(address) ? 'loopback' : false,
    });
    const app = await NestFactory.create<NestFastifyApplication>(
      serviceOn(
        dataSource,
        new PostgresRawStore(),
        address,
        options.database,
        options.keys,
        options.quotas ?? USUAL_QUOTAS,
        options.provider,
      ),
      adapter,
      {
        logger: new NestLog(log),
        abortOnError: false,
        bodyParser: false,
      },
    );
    app.useGlobalFilters(new ProblemFilter(log));
    app.useGlobalInterceptors(new RouteForm());
    const fastify = adapter.getInstance();
    await fastify.register(fastifyCookie as never);
    await limitRequests(fastify as never, options.limits ?? USUAL_LIMITS);
    readBodies(fastify as never);
    await readForms(fastify as never);
    checkFraming(fastify as never);
    const found = { sessions: app.get(Sessions), tokens: app.get(RigTokens), address };
    guardRoutes(fastify as never, admissionsOf(app), found);
    const routes = routesOf(fastify as never);
    sendSecurityHeaders(fastify as never, isSecure(address));
    if (options.consoleFolder !== undefined) {
      await serveConsole(fastify as never, options.consoleFolder);
      fastify.addHook('onRequest', async (request, reply) => {
        if (isConsolePage(request.method, request.url, request.headers.accept)) return reply.sendFile('index.html');
      });
    }
    await app.listen({ host: options.host, port: options.port });
    const close = async () => {
      await app.close();
      if (dataSource.isInitialized) await dataSource.destroy();
    };
    return { url: await app.getUrl(), app, routes, close };
  } catch (error) {
    await dataSource.destroy();
    throw error;
  }
}

/** Fills itself as routes are registered. */
function routesOf(fastify: FastifyInstance): ServedRoute[] {
  const routes: ServedRoute[] = [];
  fastify.addHook('onRoute', ({ method, url, config }) => {
    for (const one of [method].flat()) routes.push({ method: one, url, admission: config?.admission });
  });
  return routes;
}
