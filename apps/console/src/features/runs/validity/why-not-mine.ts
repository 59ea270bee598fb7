import type { Myself, RunRecord } from '../../../client/answers.js';

/** Why this person does not decide about this run; undefined where they may. The service holds the same rules. */
export function whyNotMine(
  { person, duties }: Pick<Myself, 'person' | 'duties'>,
  { recordedBy, run }: Pick<RunRecord, 'recordedBy' | 'run'>,
): string | undefined {
  const own = [
    ...(recordedBy === person ? ['recorded it'] : []),
    ...(run.operator === person ? ['made it'] : []),
    ...(run.examination?.person === person ? ['examined the specimen'] : []),
    ...(run.measurements.some((one) => one.person === person) ? ['keyed measurements of it'] : []),
    ...((run.instants ?? []).some((one) => one.person === person) ? ['moved a moment of its record'] : []),
  ];
  const [first] = own;
  if (first === undefined)
    return duties.includes('review')
      ? undefined
      : 'Validity is decided by somebody with the duty to review. You do not have it.';
  return `This is a run of your own: you ${own.length === 1 ? first : `${own.slice(0, -1).join(', ')} and ${own.at(-1)}`}. Whoever records a run does not decide whether it is valid, so that nobody judges their own work. Somebody else with the duty to review decides.`;
}
