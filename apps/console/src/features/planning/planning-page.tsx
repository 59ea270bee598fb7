import { UnitCode } from '@breakbook/lab';
import { printDeclared, printPercent, printSignificant } from '@breakbook/units';
import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { send } from '../../client/send.js';
import { Field, Select } from '../../parts/field.js';
import { HeadStrip, Section, Sheet } from '../../parts/sheet/sheet.js';
import { Slider } from '../../parts/slider.js';
import { Reading, Trouble } from '../../parts/trouble.js';
import { useSettled } from '../../parts/use-settled.js';
import { DesignsSection } from './designs-section.js';
import './planning.css';
import { ShowableSection } from './showable-section.js';
import { TemplatesSection } from './templates-section.js';
import { designsAsked, FIRST, showableAsked, type Wanted } from './wanted.js';

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
        <Sliders wanted={wanted} onChange={(next) => setWanted((now) => ({ ...now, ...next }))} />
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

const STAGED = [
  { value: 'lognormal', word: 'lognormal strengths' },
  { value: 'normal', word: 'normal strengths' },
  { value: 'weibull', word: 'Weibull strengths (takes longer)' },
] as const;

function Sliders({ wanted, onChange }: { wanted: Wanted; onChange: (next: Partial<Wanted>) => void }) {
  const { limit, unit, n, coverage, confidence, margin, cv, lotSize, perSpecimen, rigHours, distribution } = wanted;
  const positive = (name: 'limit' | 'perSpecimen' | 'rigHours', text: string) => {
    const number = Number(text);
    if (Number.isFinite(number) && (number > 0 || name !== 'limit')) onChange({ [name]: Math.max(0, number) });
  };
  return (
    <div className="sliders">
      <Field
        label="Limit, at least"
        inputMode="decimal"
        defaultValue={String(limit)}
        onChange={(event) => positive('limit', event.target.value)}
      />
      <Field
        label="Unit"
        defaultValue={unit}
        hint="A UCUM code, such as kPa, J or kJ"
        onChange={(event) => {
          const code = UnitCode.safeParse(event.target.value.trim());
          if (code.success) onChange({ unit: code.data });
        }}
      />
      <Slider
        label="Share that must hold it"
        value={coverage}
        min={0.5}
        max={0.99}
        step={0.01}
        says={printPercent(coverage)}
        onChange={(value) => onChange({ coverage: value })}
      />
      <Slider
        label="Confidence"
        value={confidence}
        min={0.55}
        max={0.99}
        step={0.01}
        says={printPercent(confidence)}
        onChange={(value) => onChange({ confidence: value })}
      />
      <Slider
        label="Mean expected"
        value={margin}
        min={0.9}
        max={2}
        step={0.01}
        says={`${printSignificant(limit * margin, 4)} ${unit}, ${printDeclared(margin)} × limit`}
        onChange={(value) => onChange({ margin: value })}
      />
      <Slider
        label="Scatter expected"
        value={cv}
        min={0.01}
        max={0.25}
        step={0.005}
        says={`${printPercent(cv)} of the mean`}
        onChange={(value) => onChange({ cv: value })}
      />
      <Slider
        label="Units in the lot"
        value={lotSize}
        min={0}
        max={200}
        step={5}
        says={lotSize > 1 ? printDeclared(lotSize) : 'the process'}
        hint="At 0 the claim is about the process that makes the lots"
        onChange={(value) => onChange({ lotSize: value })}
      />
      <Slider
        label="Specimens at hand"
        value={n}
        min={2}
        max={60}
        step={1}
        says={printDeclared(n)}
        onChange={(value) => onChange({ n: value })}
      />
      <Select
        label="What the staged bound assumes"
        value={distribution}
        options={STAGED}
        onChange={({ target }) => {
          const chosen = STAGED.find(({ value }) => value === target.value);
          if (chosen) onChange({ distribution: chosen.value });
        }}
      />
      <Field
        label="Cost of a specimen"
        inputMode="decimal"
        defaultValue={perSpecimen === 0 ? '' : String(perSpecimen)}
        hint="In the money of the lab; left empty, none is shown"
        onChange={(event) => positive('perSpecimen', event.target.value)}
      />
      <Field
        label="Rig hours of a run"
        inputMode="decimal"
        defaultValue={rigHours === 0 ? '' : String(rigHours)}
        onChange={(event) => positive('rigHours', event.target.value)}
      />
    </div>
  );
}
