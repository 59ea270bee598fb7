import { EventEmitter } from 'node:events';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { JobAnswer } from './job.js';
import type { JobBell } from './job-bell.js';
import { JobEvents } from './job-events.js';
import type { JobsService } from './jobs.service.js';

const ASKED: JobAnswer = {
  id: 'a',
  kind: 'lot evaluation',
  subject: { lot: 'L1' },
  askedBy: 'a-grossmann',
  askedAt: '2026-11-25T18:00:00Z',
  state: 'waiting',
};

describe('the events of a job', () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  /** A job whose answer the test sets, and the bell by which it is told. */
  function watched() {
    const bell = new EventEmitter();
    const now = { job: ASKED };
    const jobs = { one: async () => now.job } as unknown as JobsService;
    const events = new JobEvents(jobs, bell as unknown as JobBell);
    return { bell, now, events, stream: events.of('lab', ASKED) };
  }

  it('begin with the job as it is, and say every 20 s that somebody is still here', async () => {
    const { stream } = watched();
    expect((await stream.next()).value).toBe(`event: job\ndata: ${JSON.stringify(ASKED)}\n\n`);
    for (let n = 0; n < 2; n++) {
      const next = stream.next();
      await vi.advanceTimersByTimeAsync(19_999);
      await expect(Promise.race([next, Promise.resolve('silent')])).resolves.toBe('silent');
      await vi.advanceTimersByTimeAsync(1);
      // A line that begins with a colon is a comment (WHATWG HTML, 9.2.6): no event, but no silence either.
      expect((await next).value).toBe(': still here\n\n');
    }
  });

  it('tell each change once, leave other jobs out, and end with the job', async () => {
    const { bell, now, stream } = watched();
    await stream.next();
    const next = stream.next();
    await vi.advanceTimersByTimeAsync(0);
    bell.emit('ring', { lab: 'lab', job: 'another', said: 'ended' });
    now.job = { ...ASKED, state: 'done', evaluation: 7 };
    bell.emit('ring', { lab: 'lab', job: 'a', said: 'ended' });
    expect((await next).value).toContain('"state":"done","evaluation":7');
    expect((await stream.next()).done).toBe(true);
    expect(bell.listenerCount('ring')).toBe(0);
  });

  it('look again when the connection comes back, for what was not heard', async () => {
    const { bell, now, stream } = watched();
    await stream.next();
    const next = stream.next();
    await vi.advanceTimersByTimeAsync(0);
    now.job = { ...ASKED, state: 'running' };
    bell.emit('back');
    expect((await next).value).toContain('"state":"running"');
  });

  it('end when the service stops', async () => {
    const { events, stream } = watched();
    await stream.next();
    const next = stream.next();
    await vi.advanceTimersByTimeAsync(0);
    events.onModuleDestroy();
    expect((await next).done).toBe(true);
  });
});
