import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import { send } from '../../../client/send.js';
import { Field, FormProblem } from '../../../parts/field.js';
import { Section } from '../../../parts/sheet/sheet.js';
import { usePrint } from '../../../parts/units/reader.js';
import type { RunOnSheet } from '../use-run-sheet.js';
import { DescentAnswer, type FieldComparison } from './descent-answer.js';
import { DESCENT_FIELDS, type DescentTyped, descentRequest, FIRST_TYPED, RIM_FIELDS } from './descent-request.js';
import { type RimOfRun, rimOfRun } from './rim-of-run.js';

/** Sets a descent beside what this rim took on the rig: energy and temperature, and nothing else. */
export function DescentSection({ answer: { reading }, around: { method } }: RunOnSheet) {
  const rim = rimOfRun(reading, method);
  if (!rim) return null;
  return (
    <Section
      question="What would a descent put into this rim?"
      word="Descent"
      aside={
        <p>
          A comparison of energy and temperature. It never says that a descent is safe: defer to the maker, to the
          standards a wheel must meet, and to licensed engineering practice.
        </p>
      }
    >
      <DescentForm rim={rim} />
    </Section>
  );
}

type Answered = { result: FieldComparison } | { notEvaluated: { because: string; possibleIf: string } };

function DescentForm({ rim }: { rim: RimOfRun }) {
  const [typed, setTyped] = useState<DescentTyped>(FIRST_TYPED);
  const ask = useMutation({
    mutationFn: async (): Promise<Answered> => {
      const asked = descentRequest(typed, rim);
      if ('said' in asked) throw new Error(asked.said);
      const answer = await send('POST /api/compute', { body: asked.request });
      return 'result' in answer ? { result: answer.result as unknown as FieldComparison } : answer;
    },
  });
  const field = (name: keyof DescentTyped, label: string, hint?: string) => (
    <Field
      key={name}
      label={label}
      {...(hint === undefined ? {} : { hint })}
      inputMode="decimal"
      value={typed[name]}
      onChange={({ currentTarget: { value } }) => {
        ask.reset();
        setTyped((before) => ({ ...before, [name]: value }));
      }}
    />
  );
  return (
    <>
      <RimSeen rim={rim} />
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          ask.mutate();
        }}
      >
        {(Object.entries(RIM_FIELDS) as [keyof typeof RIM_FIELDS, { label: string }][])
          .filter(([name]) => rim[name] === undefined)
          .map(([name, { label }]) =>
            field(name, label, 'This run does not give it; taken as you write it, and as exact.'),
          )}
        {(Object.entries(DESCENT_FIELDS) as [keyof typeof DESCENT_FIELDS, { label: string; hint?: string }][]).map(
          ([name, { label, hint }]) => field(name, label, hint),
        )}
        <button type="submit" className="action" disabled={ask.isPending}>
          Set beside this run
        </button>
        <FormProblem error={ask.error} />
      </form>
      <div role="status">{ask.data && <DescentAnswer answer={ask.data} rim={rim} />}</div>
    </>
  );
}

/** What of the run is used. */
function RimSeen({ rim: { thermalResistance, timeConstant, airSpeed } }: { rim: RimOfRun }) {
  const print = usePrint();
  const beside = (standard: number | undefined) => (standard === undefined ? {} : { uncertainty: 2 * standard });
  if (!thermalResistance || !timeConstant) return null;
  return (
    <p>
      By this run the rim warms by {print.quantity(thermalResistance.value, 'K/W', beside(thermalResistance.standard))},
      with a time constant of {print.quantity(timeConstant.value, 's', beside(timeConstant.standard))}
      {airSpeed !== undefined && ` in an air stream of ${print.quantity(airSpeed, 'm/s')}`}.
    </p>
  );
}
