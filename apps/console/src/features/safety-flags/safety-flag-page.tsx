import { Paragraph, SAFETY_CAUTION } from '@breakbook/lab';
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { Link, useParams } from 'react-router';
import type { SafetyFlagRecord, TouchedLot } from '../../client/answers.js';
import {
  labQuery,
  peopleQuery,
  safetyFlagHistoryQuery,
  safetyFlagQuery,
  touchedLotsQuery,
} from '../../client/queries.js';
import { send } from '../../client/send.js';
import { useJob } from '../../client/use-job.js';
import { useSent } from '../../client/use-sent.js';
import { lotAddress, nonconformityAddress } from '../../parts/addresses.js';
import { FormProblem, TextArea } from '../../parts/field.js';
import { moment } from '../../parts/moment.js';
import { Progress } from '../../parts/progress.js';
import { Fold, HeadStrip, Section, Sheet } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { Reading, Trouble } from '../../parts/trouble.js';
import { Who } from '../../parts/who.js';
import { AgainForm } from '../people/again-form.js';
import { useMe } from '../people/me.js';
import { FLAG_RENEWS, FlagForm } from './flag-form.js';

const MAY_WRITE = ['record', 'review', 'decide', 'draw', 'calibrate', 'define'] as const;

/** One safety flag: what was seen, what it may touch, what was done at once, and what was decided. */
export function SafetyFlagPage() {
  const { n = '' } = useParams();
  const { data, error, refetch } = useQuery(safetyFlagQuery(n));
  return (
    <Sheet title={`Safety flag ${n}`}>
      {data ? (
        <FlagSheet key={data.version} one={data} />
      ) : error ? (
        <Trouble error={error} onAgain={() => void refetch()} />
      ) : (
        <Reading what={`safety flag ${n}`} />
      )}
    </Sheet>
  );
}

function FlagSheet({ one }: { one: SafetyFlagRecord }) {
  const { data: people = [] } = useQuery(peopleQuery);
  const { data: lab } = useQuery(labQuery);
  const { data: touched } = useQuery(touchedLotsQuery(`${one.number}`));
  const { data: history } = useQuery(safetyFlagHistoryQuery(`${one.number}`));
  const { duties } = useMe();
  const { number, state, content, raisedAt, raisedBy, reason } = one;
  const zone = lab?.zone ?? 'UTC';
  return (
    <>
      <HeadStrip
        noun="Safety flag"
        name={number}
        of={<bdi>{content.title}</bdi>}
        outcome={state}
        sentence={<bdi>{content.seen}</bdi>}
        next={
          state === 'closed' ? (
            <>
              nothing. Decided: <bdi>{reason}</bdi>
            </>
          ) : (
            SAFETY_CAUTION
          )
        }
        facts={[
          { term: 'Why', says: <bdi>{content.reason}</bdi> },
          { term: 'Done at once', says: <bdi>{content.doneAtOnce}</bdi> },
          {
            term: 'Raised',
            says: (
              <>
                {moment(raisedAt, zone)}, by <Who people={people} person={raisedBy} />
              </>
            ),
          },
          { term: 'Runs', says: content.runs.length === 0 ? 'none named' : content.runs.join(', ') },
          {
            term: 'Nonconformities',
            says:
              content.nonconformities.length === 0
                ? 'none named'
                : content.nonconformities.map((n, index) => (
                    <span key={n}>
                      {index > 0 && ', '}
                      <Link to={nonconformityAddress(n)}>{n}</Link>
                    </span>
                  )),
          },
          {
            term: 'Serials',
            says: <bdi>{content.serials.length === 0 ? 'none named' : content.serials.join(', ')}</bdi>,
          },
        ]}
      />
      <Section
        question="Which lots may it touch?"
        word="Lots"
        aside="As far as they can be named today. That a lot stands here says that it may be touched, not that it is."
      >
        <Table<TouchedLot>
          caption="Lots that what was seen may touch"
          columns={[
            { head: 'Lot', cell: ({ lot }) => <Link to={lotAddress(lot)}>{lot}</Link> },
            { head: 'Product', cell: ({ product }) => product },
            { head: 'Because', wide: true, cell: ({ because }) => because.join('; ') },
            { head: 'Evidence', cell: ({ lot }) => <PackLot number={number} lot={lot} /> },
          ]}
          rows={touched?.items ?? []}
          rowKey={({ lot }) => lot}
          empty="No lot can be named."
        />
      </Section>
      {state === 'open' && (
        <Section question="What is said and decided of it?" word="Decision">
          {MAY_WRITE.some((duty) => duties.includes(duty)) && (
            <Fold word="Say more of it">
              <FlagForm one={one} />
            </Fold>
          )}
          {duties.includes('decide') && <CloseForm one={one} />}
        </Section>
      )}
      <Section question="Who said what of it, and when?" word="History">
        <ol className="history">
          {(history?.items ?? []).map(({ version, state: then, at, by, reason: why }) => (
            <li key={version}>
              <time dateTime={at}>{moment(at, zone)}</time>
              <span>
                {' '}
                {version === 1 ? 'raised' : then === 'closed' ? 'closed' : 'written in'} by{' '}
                <Who people={people} person={by} />
                {why !== undefined && (
                  <>
                    : <bdi>{why}</bdi>
                  </>
                )}
              </span>
            </li>
          ))}
        </ol>
      </Section>
    </>
  );
}

function CloseForm({ one }: { one: SafetyFlagRecord }) {
  const [decision, setDecision] = useState('');
  const sent = useSent({
    send: () =>
      send('POST /api/safety-flags/{n}/closing', {
        path: { n: `${one.number}` },
        body: { decision: decision.trim() },
        follows: one.version,
      }),
    renews: FLAG_RENEWS,
  });
  return (
    <AgainForm
      sent={sent}
      button={`Close safety flag ${one.number}`}
      whole={Paragraph.safeParse(decision.trim()).success}
    >
      <TextArea
        label="What was decided, by whom, on what ground"
        hint="Whoever wrote in the flag does not close it. After this its lots can be decided about, as far as it stood in the way."
        rows={3}
        value={decision}
        onChange={({ target }) => setDecision(target.value)}
      />
    </AgainForm>
  );
}

function PackLot({ number, lot }: { number: number; lot: string }) {
  const queries = useQueryClient();
  const { duties } = useMe();
  const work = useJob(`evidence of lot ${lot} for safety flag ${number}`, () => {
    void queries.invalidateQueries({ queryKey: ['lot', lot] });
  });
  const ask = useMutation({
    mutationFn: () => send('POST /api/safety-flags/{n}/packages', { path: { n: `${number}` }, body: { lot } }),
    onSuccess: ({ id }) => work.follow(id),
  });
  if (!['audit', 'review', 'decide', 'issue'].some((duty) => duties.includes(duty as 'audit'))) return null;
  if (work.job?.state === 'done') return <a href={`/api/packages/${work.job.package}/zip`}>Take it with you</a>;
  const busy = ask.isPending || work.job?.state === 'waiting' || work.job?.state === 'running';
  return (
    <>
      <button type="button" className="action" disabled={busy} onClick={() => ask.mutate()}>
        Pack lot {lot}
      </button>
      {busy && <Progress says={work.job?.progress?.at ?? 'Waiting its turn'} share={work.job?.progress?.share} />}
      <FormProblem error={ask.error} />
    </>
  );
}
