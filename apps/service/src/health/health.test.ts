import 'reflect-metadata';
import { DataSource } from 'typeorm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { queryAs } from '../../../../tests/database.js';
import { startTestService, type TestService } from '../../../../tests/service.ts';

let service: TestService;
beforeAll(async () => {
  service = await startTestService();
});
afterAll(() => service.close());

const ready = () => service.anonymous.ask('GET', '/health/ready');

describe('the service says that it can do its work', () => {
  it('while requests and jobs are served', async () => {
    expect(await ready()).toMatchObject({ status: 200, body: { ready: true } });
  });

  it('not while no connection to the database is to be had; and it is alive all the same', async () => {
    const pool = service.app.get(DataSource);
    // The pool is bounded: so many queries that never end are what a hung database looks like from here.
    const runners = Array.from({ length: 10 }, () => pool.createQueryRunner());
    await Promise.all(runners.map((one) => one.connect()));
    try {
      const began = performance.now();
      expect(await ready()).toMatchObject({ status: 503, body: { code: 'service.unavailable' } });
      expect(performance.now() - began).toBeLessThan(5000);
      expect((await service.anonymous.ask('GET', '/health/live')).status).toBe(200);
    } finally {
      await Promise.all(runners.map((one) => one.release()));
    }
    expect((await ready()).status).toBe(200);
  });

  it('not while the connection on which jobs are heard of is away, and again when it is back', async () => {
    const statuses = new Set<number>();
    await queryAs(
      service.database.owner,
      `select pg_terminate_backend(pid) from pg_stat_activity
       where application_name = 'breakbook bell' and datname = current_database()`,
    );
    // The service hears of the end and comes back by itself, after a pause; both are looked for.
    for (const end = performance.now() + 20_000; performance.now() < end; ) {
      const { status } = await ready();
      statuses.add(status);
      if (status === 200 && statuses.has(503)) break;
    }
    expect([...statuses].sort()).toEqual([200, 503]);
  });
});
