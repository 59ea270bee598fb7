import type { Plan } from '@breakbook/lab';
import { useQuery } from '@tanstack/react-query';
import { useParams } from 'react-router';
import type { ProposalAnswer } from '../../client/answers.js';
import { labQuery, peopleQuery, proposalQuery } from '../../client/queries.js';
import { moment } from '../../parts/moment.js';
import { PlanSaid } from '../../parts/plan-said.js';
import { Fold, HeadStrip, Section, Sheet } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { Reading, Trouble } from '../../parts/trouble.js';
import { Who } from '../../parts/who.js';
import { PlanRisksSection } from '../planning/plan-risks-section.js';
import { People, stateInWords } from './approvals-page.js';
import './approval-page.css';
import { DecideSection } from './decide-section.js';

/** One proposed revision: what it changes, who proposed it, who may approve it. */
export function ApprovalPage() {
  const { n = '' } = useParams();
  const proposal = useQuery(proposalQuery(n));
  return (
    <Sheet title={`Proposal ${n}`}>
      {proposal.data ? (
        <ProposalSheet proposal={proposal.data} />
      ) : proposal.error ? (
        <Trouble error={proposal.error} onAgain={() => void proposal.refetch()} />
      ) : (
        <Reading what={`proposal ${n}`} />
      )}
    </Sheet>
  );
}

function ProposalSheet({ proposal }: { proposal: ProposalAnswer }) {
  const { data: people = [] } = useQuery(peopleQuery);
  const { data: lab } = useQuery(labQuery);
  const zone = lab?.zone ?? 'UTC';
  const { noun, key, revision, title, follows, before, decidedBy, decidedAt } = proposal;
  return (
    <>
      <HeadStrip
        noun={`Proposed ${noun}`}
        name={`${key} rev. ${revision}`}
        of={title}
        sentence={`It ${proposal.state === 'waiting' ? '' : 'is '}${stateInWords(proposal)}.${proposal.because === undefined ? '' : ` Declined because: ${proposal.because}`}`}
        next={
          proposal.state === 'waiting' && (
            <>
              <People keys={before} /> approves it or declines it.
            </>
          )
        }
        facts={[
          { term: 'Proposed by', says: <Who people={people} person={proposal.proposedBy} /> },
          { term: 'At', says: moment(proposal.proposedAt, zone) },
          ...(proposal.reason === undefined ? [] : [{ term: 'Because', says: proposal.reason }]),
          ...(decidedBy === undefined || decidedAt === undefined
            ? []
            : [
                {
                  term: proposal.state === 'approved' ? 'Approved by' : 'Declined by',
                  says: (
                    <>
                      <Who people={people} person={decidedBy} />, {moment(decidedAt, zone)}
                    </>
                  ),
                },
              ]),
        ]}
      />
      {proposal.planInWords !== undefined && (
        <Section question="What does this plan ask for?" word="In words">
          <PlanSaid of={proposal.planInWords} />
        </Section>
      )}
      <Section
        question={follows === undefined ? 'What does it say?' : `What does it change against rev. ${follows}?`}
        word="Difference"
        aside={
          follows === undefined
            ? 'There is no approved revision before it, so all of it is new.'
            : 'Every place in which the two say something else; all other places are the same.'
        }
      >
        <Table<ProposalAnswer['differences'][number]>
          caption={follows === undefined ? 'All it says' : `Rev. ${follows} and rev. ${revision}, place by place`}
          columns={[
            { head: 'Place', cell: ({ place, pointer }) => place || pointer },
            ...(follows === undefined
              ? []
              : [{ head: `Rev. ${follows}`, wide: true, cell: (one: { kept?: string }) => said(one.kept) }]),
            { head: `Rev. ${revision}`, wide: true, cell: ({ now }) => said(now) },
          ]}
          rows={proposal.differences}
          rowKey={({ pointer }) => pointer}
          empty="It says the same as the revision before it."
        />
        <Fold word="The whole text, and its digest">
          <p>
            SHA-256 of the text in canonical JSON (RFC 8785), which an approval signs: <code>{proposal.sha256}</code>
          </p>
          <pre className="text">{JSON.stringify(proposal.content, null, 2)}</pre>
        </Fold>
      </Section>
      {noun === 'plan' && <PlanRisksSection plan={proposal.content as Plan} />}
      <DecideSection proposal={proposal} />
    </>
  );
}

/** A value of the text as people read it; what is not there is said so. */
function said(json: string | undefined): string {
  if (json === undefined) return 'says nothing';
  try {
    const value: unknown = JSON.parse(json);
    return typeof value === 'string' ? value : json;
  } catch {
    // Cut where it is long, and so no whole JSON.
    return json;
  }
}
