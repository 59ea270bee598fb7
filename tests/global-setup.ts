import fs from 'node:fs';
import http from 'node:http';
import type { AddressInfo } from 'node:net';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Embedded, prepare, startEmbedded } from '@breakbook/records';
import type { TestProject } from 'vitest/node';
import { prepareJobs } from '../apps/service/src/jobs/job-schema.ts';

declare module 'vitest' {
  export interface ProvidedContext {
    /** Where a test file asks for the database server; asking starts it. */
    databaseDesk: string;
  }
}

const MIGRATIONS = fileURLToPath(new URL('../migrations', import.meta.url));

/**
 * One PostgreSQL server for the whole run, started when the first test file asks for it, so that a run of tests that
 * need none does not wait. Its database `template` has the migrations; each test file copies it (tests/database.ts).
 */
export default async function setUp(project: TestProject): Promise<() => Promise<void>> {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'breakbook-test-'));
  fs.chmodSync(folder, 0o755);
  let server: Promise<Embedded> | undefined;

  const desk = http.createServer((_request, response) => {
    server ??= startTemplate(folder);
    server.then(
      ({ connection }) => response.end(JSON.stringify(connection)),
      (error: Error) => response.writeHead(500).end(error.stack),
    );
  });
  await new Promise<void>((resolve) => desk.listen(0, '127.0.0.1', resolve));
  project.provide('databaseDesk', `http://127.0.0.1:${(desk.address() as AddressInfo).port}/`);

  return async () => {
    desk.close();
    desk.closeAllConnections();
    await (await server?.catch(() => undefined))?.stop();
    fs.rmSync(folder, { recursive: true, force: true });
  };
}

async function startTemplate(folder: string): Promise<Embedded> {
  const server = await startEmbedded(folder, { database: 'template', unsafeFast: true });
  try {
    await prepare(server.connection, MIGRATIONS, true);
    await prepareJobs(server.connection);
  } catch (error) {
    await server.stop();
    throw error;
  }
  return server;
}
