import type { JobAnswer } from '../client/answers.js';
import type { FollowedJob } from '../client/use-job.js';
import { Progress } from './progress.js';

/** What a job is doing, and how far it is; nothing once it has ended. */
export function JobUnderway({ work: { job, silent } }: { work: FollowedJob }) {
  if (!job || !isUnderway(job)) return null;
  const { state, progress } = job;
  const says = progress
    ? `${progress.at} (${Math.round(progress.share * 100)} %)`
    : state === 'waiting'
      ? 'Waiting for its turn'
      : 'At work';
  return <Progress says={silent ? 'The service does not answer; it is asked again' : says} share={progress?.share} />;
}

export function isUnderway(job: JobAnswer | undefined): boolean {
  return job?.state === 'waiting' || job?.state === 'running';
}

/** Why a job failed and what to do, in the service's own words. */
export function whyFailed({ problems = [] }: JobAnswer): string {
  const said = problems.map(({ detail, action }) => [detail, action].filter(Boolean).join(' '));
  return `It could not be done. ${said.join(' ')}`;
}
