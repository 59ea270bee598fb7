import { isNotEvaluated, type Limit, limitName, type WhatIfAsked } from '@breakbook/lab';
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { type FormEvent, useState } from 'react';
import type { LotAnswer, WhatIfAnswer } from '../../client/answers.js';
import { planRevisionsQuery, seatTaken } from '../../client/queries.js';
import { isSignedOut } from '../../client/read.js';
import { send } from '../../client/send.js';
import { Field, FormProblem, Select } from '../../parts/field.js';
import { Outcome } from '../../parts/marks/outcome.js';
import { Section } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { ToldFrom, usePrint } from '../../parts/units/reader.js';

/** What would the lot come to under another plan revision, or under a limit at another value? Nothing is decided by it. */
export function WhatIfSection({ answer }: { answer: LotAnswer }) {
  const queries = useQueryClient();
  const { lot } = answer.lot;
  const [asking, setAsking] = useState(false);
  const ask = useMutation({
    mutationFn: (body: WhatIfAsked) => send('POST /api/lots/{lot}/what-ifs', { path: { lot }, body }),
    onError: (error) => {
      if (isSignedOut(error)) seatTaken(queries, null);
    },
  });
  return (
    <Section
      question="What if the plan or a limit were another?"
      word="What if"
      aside="Worked out from the same readings, marked as a what-if, and kept nowhere. A claim that is chosen after the values are known has not the confidence it names."
    >
      {asking ? (
        <>
          <PlanForm answer={answer} busy={ask.isPending} onAsk={ask.mutate} />
          <LimitForm limits={answer.bundle.limits} busy={ask.isPending} onAsk={ask.mutate} />
          <FormProblem error={ask.error} />
        </>
      ) : (
        <button type="button" className="action" onClick={() => setAsking(true)}>
          Ask what would follow
        </button>
      )}
      {ask.data && (
        <ToldFrom record={ask.data}>
          <WhatWouldFollow now={answer} then={ask.data} />
        </ToldFrom>
      )}
    </Section>
  );
}

interface AskProps {
  busy: boolean;
  onAsk: (asked: WhatIfAsked) => void;
}

function PlanForm({ answer, busy, onAsk }: AskProps & { answer: LotAnswer }) {
  const { plan, revision } = answer.bundle.plan;
  const { data = [] } = useQuery(planRevisionsQuery(plan));
  const others = data.map(({ content }) => content).filter((one) => one.revision !== revision);
  const [chosen, setChosen] = useState('');
  const asked = others.find((one) => `${one.revision}` === chosen) ?? others[0];
  if (!asked)
    return (
      <p className="quiet">
        Plan {plan} has no revision but rev. {revision}.
      </p>
    );
  return (
    <form className="form" onSubmit={submitted(() => onAsk({ plan: { plan, revision: asked.revision } }))}>
      <Select
        label="Plan revision"
        value={`${asked.revision}`}
        options={others.map((one) => ({
          value: `${one.revision}`,
          word: `${plan} rev. ${one.revision}: ${one.title}`,
        }))}
        onChange={({ target }) => setChosen(target.value)}
      />
      <button type="submit" className="action" disabled={busy}>
        What if this plan held?
      </button>
    </form>
  );
}

/** A limit on signs has no number to change. */
type Numbered = Exclude<Limit, { bound: 'absent' }>;

function LimitForm({ limits, busy, onAsk }: AskProps & { limits: readonly Limit[] }) {
  const numbered = limits.filter((limit): limit is Numbered => limit.bound !== 'absent');
  const [chosen, setChosen] = useState('');
  const [typed, setTyped] = useState({ first: '', second: '' });
  const limit = numbered.find((one) => limitName(one) === chosen) ?? numbered[0];
  if (!limit) return <p className="quiet">The plan names no limit that has a number.</p>;
  const change = changeOf(limit, typed);
  const first = limit.bound === 'between' ? 'Lower number' : 'Value';
  return (
    <form
      className="form"
      onSubmit={submitted(() => {
        if (change) onAsk({ limits: [change] });
      })}
    >
      <Select
        label="Limit"
        value={limitName(limit)}
        options={numbered.map((one) => ({ value: limitName(one), word: `${limitName(one)}: ${one.title}` }))}
        onChange={({ target }) => setChosen(target.value)}
      />
      <Field
        label={`${first}, in ${limit.unit}`}
        inputMode="decimal"
        hint={`It is ${limit.bound === 'between' ? limit.lower : limit.value}.`}
        value={typed.first}
        onChange={({ target }) => setTyped({ ...typed, first: target.value })}
      />
      {limit.bound === 'between' && (
        <Field
          label={`Upper number, in ${limit.unit}`}
          inputMode="decimal"
          hint={`It is ${limit.upper}.`}
          value={typed.second}
          onChange={({ target }) => setTyped({ ...typed, second: target.value })}
        />
      )}
      <button type="submit" className="action" disabled={busy || change === undefined}>
        What if this limit held?
      </button>
    </form>
  );
}

function submitted(go: () => void) {
  return (event: FormEvent) => {
    event.preventDefault();
    go();
  };
}

/** The change as it is asked for; nothing while a number is none. */
function changeOf(
  limit: Numbered,
  typed: { first: string; second: string },
): NonNullable<WhatIfAsked['limits']>[number] | undefined {
  const { limit: key, revision } = limit;
  const first = typedNumber(typed.first);
  if (limit.bound !== 'between') return first === undefined ? undefined : { limit: key, revision, value: first };
  const second = typedNumber(typed.second);
  if (first === undefined && second === undefined) return undefined;
  return {
    limit: key,
    revision,
    ...(first === undefined ? {} : { lower: first }),
    ...(second === undefined ? {} : { upper: second }),
  };
}

function typedNumber(text: string): number | undefined {
  return /^[+-]?\d+(\.\d+)?$/.test(text.trim()) ? Number(text) : undefined;
}

function WhatWouldFollow({ now, then }: { now: LotAnswer; then: WhatIfAnswer }) {
  const { tell } = usePrint();
  const { result } = then;
  const before = new Map(
    now.lot.lines.flatMap(({ line, criteria }) => criteria.map((one) => [`${line} ${one.criterion}`, one.outcome])),
  );
  const criteria = result.lines.flatMap(({ line, criteria: all }) => all.map((one) => ({ ...one, line })));
  return (
    <section aria-label="What would follow" className="what-if">
      <h3>
        What if: <Outcome word={result.outcome} />
      </h3>
      <p>{tell(result.sentence)}</p>
      <p>What is different:</p>
      <ul className="notes">
        {result.whatIf.changed.map((one) => (
          <li key={one}>{tell(one)}</li>
        ))}
      </ul>
      <Table
        caption="Criteria in the what-if, beside what was found"
        columns={[
          { head: 'Criterion', cell: ({ criterion }) => criterion },
          { head: 'Line', cell: ({ line }) => line },
          { head: 'As it is', cell: ({ line, criterion }) => before.get(`${line} ${criterion}`) ?? 'not in the plan' },
          { head: 'What if', cell: ({ outcome }) => outcome },
          { head: 'Why', wide: true, cell: ({ because, statement }) => tell(because ?? statement) },
        ]}
        rows={criteria}
        rowKey={({ line, criterion }) => `${line} ${criterion}`}
        empty="The plan has no criterion."
      />
      {result.lines.map(
        ({ line, forecast }) =>
          forecast !== undefined &&
          !isNotEvaluated(forecast) && <p key={line}>What if, forecast: {tell(forecast.sentence)}</p>,
      )}
    </section>
  );
}
