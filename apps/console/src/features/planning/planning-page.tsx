import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { send } from '../../client/send.js';
import { HeadStrip, Section, Sheet } from '../../parts/sheet/sheet.js';
import { Reading, Trouble } from '../../parts/trouble.js';
import { useSettled } from '../../parts/use-settled.js';
import { DesignsSection } from './designs-section.js';
import './planning.css';
import { ShowableSection } from './showable-section.js';
import { TemplatesSection } from './templates-section.js';
import { designsAsked, FIRST, showableAsked } from './wanted.js';
import { WantedSliders } from './wanted-sliders.js';

/** What a test would need and risk, before anything is broken. Nothing that is asked here is kept. */
export function PlanningPage() {
  const [wanted, setWanted] = useState(FIRST);
  const settled = useSettled(wanted);
  const designs = useQuery({
    queryKey: ['planning', 'designs', designsAsked(settled)],
    queryFn: () => send('POST /api/planning/designs', { body: designsAsked(settled) }),
    placeholderData: keepPreviousData,
    staleTime: Number.POSITIVE_INFINITY,
  });
  const showable = useQuery({
    queryKey: ['planning', 'showable', showableAsked(settled)],
    queryFn: () => send('POST /api/planning/showable', { body: showableAsked(settled) }),
    placeholderData: keepPreviousData,
    staleTime: Number.POSITIVE_INFINITY,
  });
  const waiting = (wanted !== settled || designs.isPlaceholderData) && !designs.error;
  return (
    <Sheet title="Plan a test">
      <HeadStrip
        noun="Plan a test"
        name=""
        sentence="What would it need, and what would it risk, before anything is broken? Nothing that is asked here is kept; a plan is proposed and approved as any other."
      />
      <Section
        question="What shall be shown, and what is expected?"
        word="Claim"
        aside="The expected mean and scatter decide how many specimens are worth breaking. No claim rests on them."
      >
        <WantedSliders wanted={wanted} onChange={(next) => setWanted((now) => ({ ...now, ...next }))} />
      </Section>
      {designs.error ? (
        <Trouble error={designs.error} onAgain={() => void designs.refetch()} />
      ) : designs.data ? (
        <DesignsSection of={designs.data} waiting={waiting} />
      ) : (
        <Reading what="the designs" />
      )}
      {showable.error ? (
        <Trouble error={showable.error} onAgain={() => void showable.refetch()} />
      ) : showable.data ? (
        <ShowableSection of={showable.data} />
      ) : (
        <Reading what="what so many can show" />
      )}
      <TemplatesSection />
    </Sheet>
  );
}
