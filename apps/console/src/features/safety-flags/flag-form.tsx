import { Paragraph, SafetyFlag } from '@breakbook/lab';
import { useState } from 'react';
import type { SafetyFlagRecord } from '../../client/answers.js';
import { send } from '../../client/send.js';
import { useSent } from '../../client/use-sent.js';
import { Field, FormProblem, TextArea } from '../../parts/field.js';
import { namesIn } from '../nonconformities/names-in.js';

export const FLAG_RENEWS = ['safety flags', 'disposition', 'keeping', 'disposals'];

/** Raises a safety flag, or says more of one that is open. */
export function FlagForm({ one }: { one?: SafetyFlagRecord }) {
  const [said, setSaid] = useState({
    title: one?.content.title ?? '',
    reason: one?.content.reason ?? '',
    seen: one?.content.seen ?? '',
    doneAtOnce: one?.content.doneAtOnce ?? '',
    lots: one?.content.lots.join(' ') ?? '',
    runs: one?.content.runs.join(' ') ?? '',
    nonconformities: one?.content.nonconformities.join(' ') ?? '',
    serials: one?.content.serials.join('\n') ?? '',
    why: '',
  });
  const content = SafetyFlag.safeParse({
    title: said.title.trim(),
    reason: said.reason.trim(),
    seen: said.seen.trim(),
    doneAtOnce: said.doneAtOnce.trim(),
    lots: namesIn(said.lots),
    runs: namesIn(said.runs),
    nonconformities: namesIn(said.nonconformities).map(Number),
    serials: said.serials
      .split('\n')
      .map((serial) => serial.trim())
      .filter((serial) => serial !== ''),
  });
  const sent = useSent({
    send: async () => {
      if (!content.success) return;
      if (one)
        await send('PUT /api/safety-flags/{n}', {
          path: { n: `${one.number}` },
          body: { reason: said.why.trim(), content: content.data },
          follows: one.version,
        });
      else await send('POST /api/safety-flags', { body: content.data });
    },
    renews: FLAG_RENEWS,
  });
  const field = (name: keyof typeof said) => ({
    value: said[name],
    onChange: ({ target }: { target: { value: string } }) => setSaid((before) => ({ ...before, [name]: target.value })),
  });
  return (
    <form
      className="form"
      onSubmit={(event) => {
        event.preventDefault();
        sent.mutate(undefined);
      }}
    >
      <Field label="What it is, in a line" {...field('title')} />
      <TextArea label="What was seen" rows={3} {...field('seen')} />
      <TextArea label="Why it may endanger somebody" rows={2} {...field('reason')} />
      <TextArea label="What was done at once" hint="Such as stopping shipment." rows={2} {...field('doneAtOnce')} />
      <Field label="Lots" hint="Name at least a lot, a run or a nonconformity." {...field('lots')} />
      <Field label="Runs" {...field('runs')} />
      <Field label="Nonconformities" hint="By their numbers." {...field('nonconformities')} />
      <TextArea
        label="Serials it may touch"
        hint="One a line, units that were sold too."
        rows={2}
        {...field('serials')}
      />
      {one && <Field label="Why this is said now" {...field('why')} />}
      <FormProblem error={sent.error} />
      <button
        type="submit"
        className="action"
        disabled={
          !content.success || sent.isPending || (one !== undefined && !Paragraph.safeParse(said.why.trim()).success)
        }
      >
        {one ? 'Keep this' : 'Raise the flag'}
      </button>
    </form>
  );
}
