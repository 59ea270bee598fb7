import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type { LotPackage } from '../../client/answers.js';
import { labQuery, packageAddress, packagesQuery } from '../../client/queries.js';
import { send } from '../../client/send.js';
import { useJob } from '../../client/use-job.js';
import { FormProblem } from '../../parts/field.js';
import { moment } from '../../parts/moment.js';
import { Progress } from '../../parts/progress.js';
import { Section } from '../../parts/sheet/sheet.js';
import { useMe } from '../people/me.js';

const MAY_TAKE = ['audit', 'review', 'decide', 'issue'] as const;

/** The lot with everything it rests on, to be taken away: readable without this program, and checked without this lab. */
export function PackagesSection({ lot }: { lot: string }) {
  const queries = useQueryClient();
  const { duties } = useMe();
  const { data: lab } = useQuery(labQuery);
  const { data, error } = useQuery(packagesQuery(lot));
  const work = useJob(`package of lot ${lot}`, () => {
    void queries.invalidateQueries({ queryKey: packagesQuery(lot).queryKey });
  });
  const ask = useMutation({
    mutationFn: () => send('POST /api/lots/{lot}/packages', { path: { lot } }),
    onSuccess: ({ id }) => work.follow(id),
  });
  const busy = ask.isPending || work.job?.state === 'waiting' || work.job?.state === 'running';
  const may = MAY_TAKE.some((duty) => duties.includes(duty));
  const last = data?.items[0];
  return (
    <Section question="How can it be taken away?" word="Packages">
      <p>
        A package holds the lot with everything it rests on: tables, raw files, photos, documents, plan, limits,
        methods, calibrations, and the entries of the ledger with their proofs. Whoever has it can read it without this
        program.
      </p>
      {may && (
        <button type="button" className="action" onClick={() => ask.mutate()} disabled={busy}>
          Pack the lot
        </button>
      )}
      {busy && <Progress says={work.job?.progress?.at ?? 'Waiting its turn'} share={work.job?.progress?.share} />}
      <FormProblem error={ask.error ?? error} />
      {work.job?.state === 'failed' && <p role="alert">{work.job.problems?.[0]?.detail}</p>}
      {last ? <Last one={last} may={may} zone={lab?.zone ?? 'UTC'} /> : data && <p role="status">None was made yet.</p>}
    </Section>
  );
}

function Last({ one, may, zone }: { one: LotPackage; may: boolean; zone: string }) {
  return (
    <p role="status">
      Package {one.number} was made on {moment(one.at, zone)}, over {one.ledgerSize} entries of the ledger.{' '}
      {one.kept && may ? (
        <>
          <a href={packageAddress(one.number)} download>
            Take it with you
          </a>{' '}
          ({megabytes(one.bytes)} MB), and check it with <code>breakbook check</code>.
        </>
      ) : (
        !one.kept && 'Its bytes are kept no longer; pack the lot again to take it.'
      )}
    </p>
  );
}

function megabytes(bytes: number): string {
  return (bytes / 1e6).toFixed(1);
}
