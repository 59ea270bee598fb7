import 'reflect-metadata';
import { openDataSource, PostgresRawStore } from '@breakbook/records';
import { NestFactory } from '@nestjs/core';
import { FastifyAdapter, type NestFastifyApplication } from '@nestjs/platform-fastify';
import type pg from 'pg';
import { type Logger, pino } from 'pino';
import { serviceOn } from './app.module.js';
import { isConsolePage, serveConsole } from './http/console-files.js';
import { checkFraming, FRAMING } from './http/framing.js';
import { readBodies } from './http/json-body.js';
import { NestLog } from './http/nest-log.js';
import { ProblemFilter } from './http/problem-filter.js';
import { RouteForm } from './http/route-form.interceptor.js';
import { sendSecurityHeaders } from './http/security-headers.js';

export interface ServiceOptions {
  database: pg.ClientConfig;
  host: string;
  port: number;
  /** The built console; without it only the interface is served. */
  consoleFolder?: string;
  log?: Logger;
}

export interface RunningService {
  url: string;
  app: NestFastifyApplication;
  close(): Promise<void>;
}

/** Starts the service on a migrated database. */
export async function startService(options: ServiceOptions): Promise<RunningService> {
  const log = options.log ?? pino({ level: process.env.BREAKBOOK_LOG ?? 'warn' });
  const dataSource = await openDataSource(options.database);
  try {
    const adapter = new FastifyAdapter({
      ...FRAMING,
      loggerInstance: log,
      bodyLimit: 256 * 1024,
      routerOptions: { maxParamLength: 200 },
    });
    const app = await NestFactory.create<NestFastifyApplication>(
      serviceOn(dataSource, new PostgresRawStore()),
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
    readBodies(fastify as never);
    checkFraming(fastify as never);
    sendSecurityHeaders(fastify as never);
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
    return { url: await app.getUrl(), app, close };
  } catch (error) {
    await dataSource.destroy();
    throw error;
  }
}
