import { useEffect, useEffectEvent, useState } from 'react';
import { forget, remember, rememberedText } from '../parts/remembered.js';
import type { JobAnswer } from './answers.js';
import { ProblemAnswer } from './problem-answer.js';
import { read } from './read.js';

/** A line that broke is tried again after so long, in ms. */
const AGAIN_AFTER = 5_000;

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
    let events: EventSource;
    let again: ReturnType<typeof setTimeout>;
    let left = false;
    const later = () => {
      if (!left) again = setTimeout(listen, AGAIN_AFTER);
    };
    const end = () => {
      events.close();
      setSilent(false);
      forget(name);
      setId(undefined);
    };
    const listen = () => {
      events = new EventSource(`/api/jobs/${id}/events`);
      events.addEventListener('open', () => setSilent(false));
      events.addEventListener('error', () => {
        setSilent(true);
        if (events.readyState !== EventSource.CLOSED) return;
        // Given up by the browser, as it does when the page is left, too: only a job that is not there is forgotten.
        read(`/api/jobs/${id}`).then(later, (error: unknown) => {
          if (error instanceof ProblemAnswer && error.status === 404) end();
          else later();
        });
      });
      events.addEventListener('job', ({ data }: MessageEvent<string>) => {
        const now = JSON.parse(data) as JobAnswer;
        setJob(now);
        if (!hasEnded(now)) return;
        end();
        if (now.state === 'done') done(now);
      });
    };
    listen();
    return () => {
      left = true;
      clearTimeout(again);
      events.close();
    };
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
