import { Concession, type ConcessionKind } from '@breakbook/lab';
import { useState } from 'react';
import { send } from '../../client/send.js';
import { useSent } from '../../client/use-sent.js';
import { Choice } from '../../parts/choice.js';
import { Field, FormProblem, TextArea } from '../../parts/field.js';
import { Fold } from '../../parts/sheet/sheet.js';
import { namesIn } from '../nonconformities/names-in.js';

const EMPTY = {
  lot: '',
  limit: '',
  revision: '',
  departure: '',
  quantity: '',
  serials: '',
  until: '',
  reason: '',
  risk: '',
};

const KINDS = [
  { value: 'concession', word: 'concession, after a failure' },
  { value: 'deviation permit', word: 'deviation permit, before the test' },
] as const;

/** The form by which leave is asked for. Somebody else grants or refuses it. */
export function AskForConcession() {
  const [kind, setKind] = useState<ConcessionKind>('concession');
  const [said, setSaid] = useState(EMPTY);
  const wanted = wantedFrom(kind, said);
  const ask = useSent({
    send: (body: Concession) => send('POST /api/concessions', { body }),
    renews: ['concessions', 'disposition'],
    onTaken: () => setSaid(EMPTY),
  });
  const field = (name: keyof typeof EMPTY) => ({
    value: said[name],
    onChange: ({ target }: { target: { value: string } }) => setSaid({ ...said, [name]: target.value }),
  });
  return (
    <Fold word="Ask for one">
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          if (wanted) ask.mutate(wanted);
        }}
      >
        <Choice legend="Kind" options={KINDS} chosen={kind} onChoose={setKind} />
        <Field label="Lot" {...field('lot')} required />
        <Field
          label="Limit of the lab’s own"
          hint="By its name, such as SW-RIM-BURST. A limit from outside is never conceded."
          {...field('limit')}
          required={kind === 'concession'}
        />
        <Field label="Its revision" inputMode="numeric" {...field('revision')} required={kind === 'concession'} />
        <TextArea label="What departs from what" rows={2} {...field('departure')} required />
        <Field
          label="For at most so many units"
          hint="Or leave it empty and name serials."
          inputMode="numeric"
          {...field('quantity')}
        />
        <Field label="For these serials" hint="With blanks between." {...field('serials')} />
        <Field label="Until" type="date" {...field('until')} required />
        <TextArea label="Reason" rows={2} {...field('reason')} required />
        <TextArea label="What may come of it, for whom" rows={2} {...field('risk')} required />
        <FormProblem error={ask.error} />
        <button type="submit" className="action" disabled={wanted === undefined || ask.isPending}>
          Ask for this {kind}
        </button>
      </form>
    </Fold>
  );
}

/** What the form says, where it is whole. */
function wantedFrom(kind: ConcessionKind, said: typeof EMPTY): Concession | undefined {
  const { lot, limit, revision, departure, quantity, serials, until, reason, risk } = said;
  const parsed = Concession.safeParse({
    kind,
    lot: lot.trim(),
    ...(limit.trim() === '' ? {} : { limit: { limit: limit.trim(), revision: countIn(revision) } }),
    departure: departure.trim(),
    bounds: quantity.trim() === '' ? { serials: namesIn(serials) } : { quantity: countIn(quantity) },
    until,
    reason: reason.trim(),
    risk: risk.trim(),
  });
  return parsed.success ? parsed.data : undefined;
}

function countIn(written: string): number | undefined {
  return /^[1-9]\d{0,5}$/.test(written.trim()) ? Number(written.trim()) : undefined;
}
