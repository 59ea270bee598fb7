import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { ComparisonRecord, ObservationRecord } from '../../client/answers.js';
import { referenceQuery } from '../../client/comparison-queries.js';
import { send } from '../../client/send.js';
import { useSent } from '../../client/use-sent.js';
import { BesideForm } from '../../parts/beside-form.js';
import { Choice } from '../../parts/choice.js';
import { Field, RefusedAt, Select, TextArea } from '../../parts/field.js';
import { thisMinute, WhenField } from '../../parts/when-field.js';
import { PickPhotos } from './pick-photos.js';

interface ObservationFormProps {
  of: ComparisonRecord;
  observations: readonly ObservationRecord[];
  zone: string;
}

interface Said {
  specimen: string;
  feature: string;
  as: 'words' | 'quantity';
  seen: string;
  value: string;
  unit: string;
  instrument: string;
  givenBy: '' | 'customer' | 'outside provider';
  provider: string;
  note: string;
  photos: string[];
  at: string;
  why: string;
}

const MEASURED: readonly string[] = ['dimension', 'mass'];

/** Writes down what was seen of a feature on an item or a unit of the reference; what stands already is corrected, with the reason. */
export function ObservationForm({ of, observations, zone }: ObservationFormProps) {
  const specimens = useSpecimens(of);
  const { features } = of.content;
  const [said, setSaid] = useState<Said>(() => {
    const open = features.flatMap(({ feature, kind }) =>
      specimens
        .filter(
          (specimen) =>
            !observations.some(({ content }) => content.feature === feature && content.specimen === specimen),
        )
        .map((specimen) => ({ specimen, feature, kind })),
    )[0];
    return {
      specimen: open?.specimen ?? specimens[0] ?? '',
      feature: open?.feature ?? features[0]?.feature ?? '',
      as: open && MEASURED.includes(open.kind) ? 'quantity' : 'words',
      seen: '',
      value: '',
      unit: '',
      instrument: '',
      givenBy: '',
      provider: '',
      note: '',
      photos: [],
      at: thisMinute(),
      why: '',
    };
  });
  const set = (now: Partial<Said>) => setSaid((then) => ({ ...then, ...now }));
  const before = observations.find(
    ({ content }) => content.feature === said.feature && content.specimen === said.specimen,
  );
  const feature = features.find((one) => one.feature === said.feature);
  const sent = useSent({
    send: async (_: undefined) => {
      const content = contentOf(said);
      const path = { comparison: of.comparison };
      if (before)
        await send('PUT /api/comparisons/{comparison}/observations/{n}', {
          path: { ...path, n: `${before.number}` },
          body: { content, reason: said.why.trim() },
          follows: before.version,
        });
      else await send('POST /api/comparisons/{comparison}/observations', { path, body: content });
    },
    renews: ['comparisons'],
  });
  const typed = (name: 'seen' | 'value' | 'unit' | 'instrument' | 'provider' | 'note' | 'why') => ({
    value: said[name],
    onChange: ({ target }: { target: { value: string } }) => set({ [name]: target.value }),
  });
  return (
    <BesideForm sent={sent} button={before ? 'Correct it' : 'Write it down'} within={before ? '/content' : ''}>
      <div className="fields">
        <Select
          label="Feature"
          at="/feature"
          value={said.feature}
          options={features.map((one) => ({ value: one.feature, word: one.title }))}
          onChange={({ target }) => {
            const next = features.find((one) => one.feature === target.value);
            set({ feature: target.value, as: next && MEASURED.includes(next.kind) ? 'quantity' : 'words' });
          }}
        />
        {specimens.length > 0 ? (
          <Select
            label="Specimen"
            at="/specimen"
            value={said.specimen}
            options={specimens.map((value) => ({ value, word: value }))}
            onChange={({ target }) => set({ specimen: target.value, photos: [] })}
          />
        ) : (
          <Field
            label="Specimen"
            at="/specimen"
            value={said.specimen}
            onChange={({ target }) => set({ specimen: target.value.trim(), photos: [] })}
          />
        )}
      </div>
      {feature && (
        <p className="quiet small">
          How it is read: <bdi>{feature.howRead}</bdi>
          {feature.changesItem &&
            ' Looking changes the item: see first that consent or notice is recorded where it is needed.'}
        </p>
      )}
      <Choice
        legend="Written down as"
        options={[
          { value: 'words', word: 'words' },
          { value: 'quantity', word: 'a quantity' },
        ]}
        chosen={said.as}
        onChoose={(as) => set({ as })}
      />
      {said.as === 'words' ? (
        <Field label="What is seen, letter by letter" at="/seen" {...typed('seen')} />
      ) : (
        <div className="fields">
          <Field label="Value" at="/quantity/value" inputMode="decimal" {...typed('value')} />
          <Field label="Unit" at="/quantity/unit" hint="By its code, such as mm or g." {...typed('unit')} />
        </div>
      )}
      <div className="fields">
        <Field label="Instrument" at="/instrument" hint="Left empty: none." {...typed('instrument')} />
        <WhenField label="When" at="/at" value={said.at} zone={zone} onChange={(at) => set({ at })} />
        <Select
          label="Found by"
          at="/givenBy"
          value={said.givenBy}
          options={[
            { value: '', word: 'this lab' },
            { value: 'outside provider', word: 'another lab or provider' },
            { value: 'customer', word: 'the customer' },
          ]}
          onChange={({ target }) => set({ givenBy: target.value as Said['givenBy'] })}
        />
        {said.givenBy !== '' && <Field label="Who that is" at="/provider" {...typed('provider')} />}
      </div>
      <TextArea label="Note" at="/note" hint="Left empty: none." rows={2} {...typed('note')} />
      <PickPhotos specimen={said.specimen} picked={said.photos} onPick={(photos) => set({ photos })} />
      <RefusedAt at="/photos" />
      {before && (
        <>
          <p>
            Observation {before.number} says of it: <bdi>{before.content.seen ?? 'a quantity'}</bdi>. This corrects it;
            both stay.
          </p>
          <TextArea label="Why it is corrected" at="/reason" rows={2} {...typed('why')} />
        </>
      )}
    </BesideForm>
  );
}

/** Items first, then the units of the reference. */
function useSpecimens({ content: { compared } }: ComparisonRecord): string[] {
  const isItems = compared.what === 'items with a reference';
  const { data } = useQuery({
    ...referenceQuery(isItems ? compared.reference.reference : ''),
    enabled: isItems,
  });
  return isItems ? [...compared.items, ...(data?.content.units.map(({ specimen }) => specimen) ?? [])] : [];
}

function contentOf({
  specimen,
  feature,
  as,
  seen,
  value,
  unit,
  instrument,
  givenBy,
  provider,
  note,
  photos,
  at,
}: Said) {
  const line = (name: string, text: string) => (text.trim() === '' ? {} : { [name]: text.trim() });
  return {
    specimen,
    feature,
    ...(as === 'words' ? line('seen', seen) : { quantity: { value: Number(value), unit: unit.trim() } }),
    ...line('instrument', instrument),
    ...(givenBy === '' ? {} : { givenBy, ...line('provider', provider) }),
    ...line('note', note),
    ...(photos.length === 0 ? {} : { photos }),
    at,
  };
}
