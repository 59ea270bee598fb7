import { type CustodyEvent, CustodyStep } from '@breakbook/lab';
import { useState } from 'react';
import { send } from '../../client/send.js';
import { useSent } from '../../client/use-sent.js';
import { BesideForm } from '../../parts/beside-form.js';
import { Field, Select, TextArea } from '../../parts/field.js';
import { Tick } from '../../parts/tick.js';
import { thisMinute, WhenField } from '../../parts/when-field.js';

interface Said {
  step: CustodyEvent['step'];
  at: string;
  from: string;
  to: string;
  place: string;
  seal: string;
  condition: string;
  changesItem: boolean;
}

/** Steps after which an item is usually not what it was. */
const CHANGING: readonly string[] = ['tested'];

/** Adds a step to the custody of a specimen. Who had it last is who gives it away. */
export function CustodyForm({
  specimen,
  last,
  zone,
}: {
  specimen: string;
  last: CustodyEvent | undefined;
  zone: string;
}) {
  const [said, setSaid] = useState<Said>(() => ({
    step: last ? 'handed over' : 'received',
    at: thisMinute(),
    from: last?.to ?? '',
    to: '',
    place: last?.place ?? '',
    seal: '',
    condition: '',
    changesItem: false,
  }));
  const set = (now: Partial<Said>) => setSaid((then) => ({ ...then, ...now }));
  const sent = useSent({
    send: (_: undefined) => {
      const { from, seal, to, place, condition, ...rest } = said;
      return send('POST /api/specimens/{specimen}/custody', {
        path: { specimen },
        body: {
          ...rest,
          to: to.trim(),
          place: place.trim(),
          condition: condition.trim(),
          ...(from.trim() === '' ? {} : { from: from.trim() }),
          ...(seal.trim() === '' ? {} : { seal: seal.trim() }),
        },
      });
    },
    renews: ['specimen', 'comparisons'],
  });
  const typed = (name: 'from' | 'to' | 'place' | 'seal' | 'condition') => ({
    at: `/${name}`,
    value: said[name],
    onChange: ({ target }: { target: { value: string } }) => set({ [name]: target.value }),
  });
  return (
    <BesideForm sent={sent} button="Write this step down">
      <div className="fields">
        <Select
          label="What happened"
          at="/step"
          value={said.step}
          options={CustodyStep.options.map((value) => ({ value, word: value }))}
          onChange={({ target }) => {
            const step = target.value as Said['step'];
            set({ step, changesItem: CHANGING.includes(step) });
          }}
        />
        <WhenField label="When" at="/at" value={said.at} zone={zone} onChange={(at) => set({ at })} />
        <Field label="From whom" hint="Needed where it is received or handed over." {...typed('from')} />
        <Field label="Who has it after" hint="People of the lab by the name they sign in with." {...typed('to')} />
        <Field label="Where" {...typed('place')} />
        <Field label="Seal" hint="The one it bore, or was given. Left empty: none." {...typed('seal')} />
      </div>
      <TextArea label="In what condition" rows={2} {...typed('condition')} />
      <Tick
        word="After this it is not what it was before"
        ticked={said.changesItem}
        onTick={(changesItem) => set({ changesItem })}
      />
      <p className="quiet small">
        Nothing of a custody is ever changed; what was written wrongly is told by a further step.
      </p>
    </BesideForm>
  );
}
