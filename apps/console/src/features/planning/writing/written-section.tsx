import type { Plan } from '@breakbook/lab';
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { Link } from 'react-router';
import { seatTaken } from '../../../client/queries.js';
import { isSignedOut } from '../../../client/read.js';
import { send } from '../../../client/send.js';
import { proposalAddress } from '../../../parts/addresses.js';
import { FormProblem } from '../../../parts/field.js';
import { Fold, Section } from '../../../parts/sheet/sheet.js';
import { Reading, Trouble } from '../../../parts/trouble.js';
import { useSettled } from '../../../parts/use-settled.js';
import { useMe } from '../../people/me.js';
import { PlanRisksSection } from '../plan-risks-section.js';
import type { ChosenDesign } from './chosen-design.js';
import { draftAsked, type Filling } from './filling.js';

/** The plan as it is written so far: what it risks, its text, and its way to be approved. */
export function WrittenSection(given: {
  filling: Filling;
  design: ChosenDesign | undefined;
  lacking: readonly string[];
}) {
  const { filling, design, lacking } = given;
  const asked = useSettled(draftAsked(filling, design));
  const draft = useQuery({
    queryKey: ['planning', 'draft', asked],
    queryFn: () => send('POST /api/planning/drafts', { body: asked }),
    enabled: lacking.length === 0,
    staleTime: Number.POSITIVE_INFINITY,
    retry: false,
  });
  if (lacking.length > 0)
    return (
      <Section question="What is still to be chosen?" word="Still open">
        <p role="status">Still open: {lacking.join(', ')}. Then the plan stands here, with what it risks.</p>
      </Section>
    );
  if (draft.error) return <Trouble error={draft.error} onAgain={() => void draft.refetch()} />;
  if (!draft.data) return <Reading what="the plan" />;
  return (
    <>
      <PlanRisksSection plan={draft.data} />
      <ProposeSection plan={draft.data} />
    </>
  );
}

function ProposeSection({ plan }: { plan: Plan }) {
  const { duties } = useMe();
  const queries = useQueryClient();
  const propose = useMutation({
    mutationFn: () => send('POST /api/plans', { body: plan }),
    onError: (error) => {
      if (isSignedOut(error)) seatTaken(queries, null);
    },
    onSuccess: () =>
      Promise.all([
        queries.invalidateQueries({ queryKey: ['plans'] }),
        queries.invalidateQueries({ queryKey: ['proposals'] }),
      ]),
  });
  const text = `${JSON.stringify(plan, null, 2)}\n`;
  return (
    <Section
      question="Is it as you mean it?"
      word="Propose"
      aside="A revision never changes once it is proposed; the next one stands beside it. Runs can be made under it from its approval on."
    >
      <p>
        <bdi>{plan.claim.statement}</bdi>
      </p>
      {propose.data ? (
        <p role="status">
          Proposed as {plan.plan} rev. {plan.revision}.{' '}
          {propose.data.standing.proposal !== undefined && (
            <Link className="action main" to={proposalAddress(propose.data.standing.proposal)}>
              Who approves it
            </Link>
          )}
        </p>
      ) : duties.includes('define') ? (
        <>
          <FormProblem error={propose.error} />
          <p>
            <button className="action main" type="button" disabled={propose.isPending} onClick={() => propose.mutate()}>
              Propose {plan.plan} rev. {plan.revision}
            </button>
          </p>
        </>
      ) : (
        <p>A plan is proposed by somebody with the duty to define. Hand them the file: they can propose it as it is.</p>
      )}
      <p>
        <a href={`data:application/json;charset=utf-8,${encodeURIComponent(text)}`} download={`${plan.plan}.json`}>
          The plan as a file, {plan.plan}.json
        </a>
        . To go on by hand, such as with further lines or criteria, change the file and send it to{' '}
        <code>POST /api/plans</code>; <code>breakbook plan --risks</code> weighs it in the folder of a lot.
      </p>
      <Fold word="The whole text">
        <pre className="text">{text}</pre>
      </Fold>
    </Section>
  );
}
