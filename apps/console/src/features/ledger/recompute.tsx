import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type { JobAnswer, RecomputationInList, RecomputedRun } from '../../client/answers.js';
import { recomputationQuery, recomputationsQuery } from '../../client/queries.js';
import { send } from '../../client/send.js';
import { useJob } from '../../client/use-job.js';
import { FormProblem } from '../../parts/field.js';
import { Progress } from '../../parts/progress.js';
import { Table } from '../../parts/table.js';

/** Has every stored run read and every evaluation judged again, and says of the last time which came out otherwise than they were kept. */
export function Recompute() {
  const queries = useQueryClient();
  const work = useJob('recomputation', () => void queries.invalidateQueries({ queryKey: ['recomputations'] }));
  const ask = useMutation({
    mutationFn: (): Promise<JobAnswer> => send('POST /api/recomputations'),
    onSuccess: ({ id }) => work.follow(id),
  });
  const busy = ask.isPending || work.job?.state === 'waiting' || work.job?.state === 'running';
  const { data } = useQuery(recomputationsQuery);
  const last = data?.items[0];
  return (
    <div className="verify">
      <button type="button" className="action" onClick={() => ask.mutate()} disabled={busy}>
        Work every number out again
      </button>
      {busy && <Progress says={work.job?.progress?.at ?? 'Waiting its turn'} share={work.job?.progress?.share} />}
      <FormProblem error={ask.error} />
      {work.job?.state === 'failed' && <p role="alert">{work.job.problems?.[0]?.detail}</p>}
      {last && (
        <p role="status">
          {`Recomputation ${last.number}: ${outcomeOf(last.runs, 'runs', last)}` +
            `${last.evaluations ? `; ${outcomeOf(last.evaluations.evaluations, 'evaluations', last.evaluations)}` : ''}` +
            `. By ${last.software}.`}
        </p>
      )}
      {last && !allIdentical(last) && <Different number={last.number} />}
    </div>
  );
}

interface Counted {
  identical: number;
  different: number;
  refused: number;
}

function outcomeOf(of: number, what: string, { identical, different, refused }: Counted): string {
  return (
    `${identical} of ${of} ${what} came out as they were kept, to the last bit` +
    `${different > 0 ? `, ${different} did not` : ''}` +
    `${refused > 0 ? `, ${refused} could not be worked out again` : ''}`
  );
}

function allIdentical({ runs, identical, evaluations }: RecomputationInList): boolean {
  return identical === runs && (!evaluations || evaluations.identical === evaluations.evaluations);
}

interface Row {
  subject: string;
  since: string;
  found: string;
}

function Different({ number }: { number: number }) {
  const { data } = useQuery(recomputationQuery(number));
  if (!data) return null;
  const { refused = [], different = [] } = data.evaluations ?? {};
  const rows: Row[] = [
    ...data.refused.map(({ run, because }) => ({ subject: `run ${run}`, since: '', found: because })),
    ...data.different.flatMap((one) =>
      differencesOf(`run ${one.run}`, `${one.method.method} rev. ${one.method.revision}, ${one.software}`, one),
    ),
    ...refused.map((one) => ({ subject: evaluationNamed(one), since: '', found: one.because })),
    ...different.flatMap((one) => differencesOf(evaluationNamed(one), one.software, one)),
  ];
  return (
    <Table<Row>
      caption="What is not as it was kept"
      columns={[
        { head: 'Of', cell: ({ subject }) => subject },
        { head: 'Since', cell: ({ since }) => since },
        { head: 'What', wide: true, cell: ({ found }) => found },
      ]}
      rows={rows}
      rowKey={({ subject, found }) => `${subject} ${found}`}
      empty="Everything came out as it was kept."
    />
  );
}

function evaluationNamed({ evaluation, lot }: { evaluation: number; lot: string }): string {
  return `evaluation ${evaluation} of lot ${lot}`;
}

/** What was kept and is otherwise, place by place; what only came to it, in one line. */
function differencesOf(
  subject: string,
  since: string,
  { differences, count, added = [] }: Pick<RecomputedRun, 'differences' | 'count' | 'added'>,
): Row[] {
  const came = added.reduce((sum, { places }) => sum + places, 0);
  const told = came === 0 ? differences : differences.filter(({ kept }) => kept !== undefined);
  const rows = told.map(({ place, kept = 'not there', now = 'not there' }) => ({
    subject,
    since,
    found: `${place}: was ${kept}, is ${now}`,
  }));
  const more = count - came - rows.length;
  if (more > 0) rows.push({ subject, since, found: `and ${more} more` });
  if (came > 0) {
    const names = added.map(({ name, places }) => `${name} (${places})`).join(', ');
    const otherwise = count === came ? ' Nothing that was kept is otherwise.' : '';
    rows.push({ subject, since, found: `worked out now and not kept then: ${names}.${otherwise}` });
  }
  return rows;
}
