import { Refusal } from '@breakbook/lab';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { Workers } from './workers.js';

const body = (document: unknown) => ({ body: new TextEncoder().encode(JSON.stringify(document)) });
const SUMMARY = body({ method: 'summary', values: [1, 2, 3] });

describe('Workers', () => {
  let workers: Workers;
  beforeEach(() => {
    workers = new Workers();
  });
  afterEach(() => workers.onModuleDestroy());

  it('does one task after another, and more than it has threads', async () => {
    const first = await workers.run('compute', SUMMARY);
    expect(first).toMatchObject({ result: { mean: 2 } });
    const more = await Promise.all(Array.from({ length: 12 }, () => workers.run('compute', SUMMARY)));
    expect(more).toEqual(Array.from({ length: 12 }, () => first));
  });

  it('hands a refusal over as a refusal, and goes on', async () => {
    const refused = await workers.run('compute', { body: new TextEncoder().encode('{"a":1,"a":2}') }).catch((e) => e);
    expect(refused).toBeInstanceOf(Refusal);
    expect(refused.code).toBe('json.duplicate-key');
    await expect(workers.run('compute', SUMMARY)).resolves.toBeDefined();
  });

  it('ends a task that is aborted, running or waiting, and only that', async () => {
    const because = new Error('not wanted any more');
    const controller = new AbortController();
    const aborted = Array.from({ length: 6 }, () =>
      workers.run('compute', SUMMARY, { signal: controller.signal }).catch((error: unknown) => error),
    );
    const kept = workers.run('compute', SUMMARY);
    controller.abort(because);
    expect(await Promise.all(aborted)).toEqual(Array.from({ length: 6 }, () => because));
    await expect(kept).resolves.toBeDefined();
  });

  it('says that it is busy rather than let a line grow without end', async () => {
    const many = Array.from({ length: 90 }, () =>
      workers.run('compute', SUMMARY).catch((error: Refusal) => error.code),
    );
    const codes = (await Promise.all(many)).filter((one) => typeof one === 'string');
    expect(codes.length).toBeGreaterThan(0);
    expect(new Set(codes)).toEqual(new Set(['service.busy']));
  });

  it('leaves idle threads to whoever comes after, and none that is at work', async () => {
    await workers.run('compute', SUMMARY);
    const still = workers.run('compute', SUMMARY).catch((error: Error) => error.message);
    await workers.onModuleDestroy();
    expect(await still).toMatch(/A thread ended with 1|stopping/);
    const after = new Workers();
    await expect(after.run('compute', SUMMARY)).resolves.toMatchObject({ result: { mean: 2 } });
    await after.onModuleDestroy();
    await expect(after.run('compute', SUMMARY)).rejects.toThrow('stopping');
  });
});
