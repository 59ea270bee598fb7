import { useEffect, useEffectEvent, useState } from 'react';
import { forget, remember, rememberedText } from '../parts/remembered.js';
import { type JobAnswer } from './answers.js';

export interface FollowedJob {
  /** The job as it stands; undefined while none is followed or nothing was heard of it yet. */
  job: JobAnswer | undefined;
  /** Follows this one from now on, also after the page was left and is opened again. */
  follow: (id: string) => void;
  /** The line to the service is down; it is tried again by itself. */
  silent: boolean;
}

/** Follows a job by the events the service sends, until it has ended. `name` is what its work is remembered by. */
export function useJob(name: string, onDone: (job: JobAnswer) => void): FollowedJob {
  const [id, setId] = useState(() => rememberedText(name));
  const [job, setJob] = useState<JobAnswer>();
  const [silent, setSilent] = useState(false);
  const done = useEffectEvent(onDone);
  useEffect(() => {
    if (id === undefined) return;
    const events = new EventSource(`/api/jobs/${id}/events`);
    events.addEventListener('open', () => setSilent(false));
    events.addEventListener('error', () => {
      setSilent(true);
      // Closed by the browser: the service refused, so there is nothing to wait for.
      if (events.readyState === EventSource.CLOSED) forget(name);
    });
    events.addEventListener('job', ({ data }: MessageEvent<string>) => {
      const now = JSON.parse(data) as JobAnswer;
      setJob(now);
      if (!hasEnded(now)) return;
      events.close();
      setSilent(false);
      forget(name);
      setId(undefined);
      if (now.state === 'done') done(now);
    });
    return () => events.close();
  }, [id, name]);
  return {
    job,
    silent: silent && id !== undefined,
    follow: (next) => {
      remember(name, next);
      setJob(undefined);
      setId(next);
    },
  };
}

export function hasEnded({ state }: JobAnswer): boolean {
  return state === 'done' || state === 'failed' || state === 'cancelled';
}
