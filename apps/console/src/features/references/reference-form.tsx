import type { Reference, ReferenceUnit } from '@breakbook/lab';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { useNavigate } from 'react-router';
import type { NewReference } from '../../client/answers.js';
import { peopleQuery, productsQuery } from '../../client/queries.js';
import { send } from '../../client/send.js';
import { useSent } from '../../client/use-sent.js';
import { referenceAddress } from '../../parts/addresses.js';
import { Field, RefusedAt, Select, TextArea } from '../../parts/field.js';
import { ProblemsBeside, ProblemsElsewhere } from '../../parts/problems-beside.js';
import { Rows } from '../../parts/rows.js';
import { Section } from '../../parts/sheet/sheet.js';
import { Tick } from '../../parts/tick.js';
import { useMe } from '../people/me.js';
import { PickSpecimens } from './pick-specimens.js';
import { lotsIn } from './references-table.js';

interface Said {
  reference: string;
  title: string;
  product: string;
  madeFrom: string;
  madeTo: string;
  choice: string;
  units: readonly ReferenceUnit[];
  looked: boolean;
  list: string;
  checkedBy: string;
  features: { feature: string; built: string }[];
  why: string;
}

/** What a reference is, from its units to what else was built; frozen as it is sent. `before` is the revision it follows. */
export function ReferenceForm({ product, before }: { product: string; before?: Reference }) {
  const me = useMe();
  const navigate = useNavigate();
  const { data: products = [] } = useQuery(productsQuery);
  const { data: people = [] } = useQuery(peopleQuery);
  const [said, setSaid] = useState<Said>(() => begun(product, me.person, before));
  const set = (now: Partial<Said>) => setSaid((then) => ({ ...then, ...now }));
  const sent = useSent({
    send: async (_: undefined) => {
      const content = contentOf(said, (before?.revision ?? 0) + 1);
      if (before)
        await send('POST /api/references/{reference}/revisions', {
          path: { reference: before.reference },
          body: { content, reason: said.why.trim() },
        });
      else await send('POST /api/references', { body: content });
      void navigate(referenceAddress(content.reference));
    },
    renews: ['references'],
  });
  const typed = (name: 'reference' | 'title' | 'madeFrom' | 'madeTo' | 'choice' | 'list' | 'why') => ({
    value: said[name],
    onChange: ({ target }: { target: { value: string } }) => set({ [name]: target.value }),
  });
  const lots = lotsIn(said.units).length;
  return (
    <form
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        sent.mutate(undefined);
      }}
    >
      <ProblemsBeside error={sent.error} within={before ? '/content' : ''}>
        <Section question="What is it, and of which time?" word="Reference">
          <div className="fields">
            <Field
              label="Its name"
              at="/reference"
              hint="Unique in the lab, such as REF-DUNLIN."
              disabled={before !== undefined}
              {...typed('reference')}
            />
            <Select
              label="Product"
              at="/product"
              value={said.product}
              disabled={before !== undefined}
              options={[
                { value: '', word: 'not chosen yet' },
                ...products.map(({ key, content }) => ({ value: key, word: content.name })),
              ]}
              onChange={({ target }) => set({ product: target.value, units: [] })}
            />
            <Field label="Made from" at="/madeFrom" type="date" {...typed('madeFrom')} />
            <Field label="Made to" at="/madeTo" type="date" {...typed('madeTo')} />
          </div>
          <Field label="What it is, in a line" at="/title" {...typed('title')} />
        </Section>
        <Section
          question="Which specimens are its units?"
          word="Units"
          aside="Specimens of unknown making are not offered: they are compared, not compared with."
        >
          <p role="status">
            {said.units.length} chosen, of {lots} {lots === 1 ? 'lot' : 'lots'}.
            {lots < 3 && ' From fewer than three lots, nothing can be told but of these lots.'}
          </p>
          <PickSpecimens
            product={said.product}
            picked={said.units}
            onPick={(units) => set({ units })}
            fits={({ content }) => content.origin !== 'suspect'}
          />
          <RefusedAt at="/units" />
          <TextArea
            label="How they were chosen"
            at="/choice"
            hint="Such as: every unit of these lots that was drawn at random and tested in that time."
            rows={2}
            {...typed('choice')}
          />
        </Section>
        <Section
          question="What else was built in that time?"
          word="Build variants"
          aside="A feature that an item has and no unit is only called a difference where the build records were looked through."
        >
          <Tick
            word="The build records were looked through"
            ticked={said.looked}
            onTick={(looked) => set({ looked })}
          />
          {said.looked && (
            <>
              <TextArea
                label="What was looked through"
                at="/variants/list"
                hint="Such as: change notes of Dunlin 42, March to June."
                rows={2}
                {...typed('list')}
              />
              <Select
                label="Who looked"
                at="/variants/checkedBy"
                value={said.checkedBy}
                options={people.map(({ person, name }) => ({ value: person, word: name }))}
                onChange={({ target }) => set({ checkedBy: target.value })}
              />
              <RefusedAt at="/variants/features" />
              <Rows
                rows={said.features}
                thing="Feature"
                named={({ feature }) => feature}
                fresh={() => ({ feature: '', built: '' })}
                onChange={(features) => set({ features })}
              >
                {(row, now) => (
                  <div className="fields">
                    <Field
                      label="Name of the feature"
                      hint="As the comparison will name it, such as label."
                      value={row.feature}
                      onChange={({ target }) => now({ feature: target.value })}
                    />
                    <TextArea
                      label="What else it was"
                      hint="One a line, letter by letter. Left empty: nothing else was built."
                      rows={2}
                      value={row.built}
                      onChange={({ target }) => now({ built: target.value })}
                    />
                  </div>
                )}
              </Rows>
            </>
          )}
        </Section>
        <Section question="Is it as you mean it?" word="Freeze">
          {before && <TextArea label="Why it is chosen otherwise" at="/reason" rows={2} {...typed('why')} />}
          <p>
            After this it is frozen, in your name and with the instant. It can only be followed by a further revision.
          </p>
          <ProblemsElsewhere />
          <button type="submit" className="action main" disabled={sent.isPending}>
            Freeze {before ? `rev. ${before.revision + 1}` : 'this reference'}
          </button>
        </Section>
      </ProblemsBeside>
    </form>
  );
}

function begun(product: string, person: string, before: Reference | undefined): Said {
  const variants = before?.variants;
  return {
    reference: before?.reference ?? '',
    title: before?.title ?? '',
    product,
    madeFrom: before?.madeFrom ?? '',
    madeTo: before?.madeTo ?? '',
    choice: before?.choice ?? '',
    units: before?.units ?? [],
    looked: variants !== undefined,
    list: variants?.list ?? '',
    checkedBy: variants?.checkedBy ?? person,
    features: Object.entries(variants?.features ?? {}).map(([feature, built]) => ({
      feature,
      built: built.join('\n'),
    })),
    why: '',
  };
}

function contentOf(said: Said, revision: number): NewReference {
  const { reference, title, product, madeFrom, madeTo, choice, units, looked, list, checkedBy, features } = said;
  const lines = (text: string) => text.split('\n').flatMap((line) => line.trim() || []);
  return {
    reference: reference.trim(),
    revision,
    title: title.trim(),
    product,
    madeFrom,
    madeTo,
    choice: choice.trim(),
    units: units.toSorted((a, b) => inOrder(a.lot, b.lot) || inOrder(a.specimen, b.specimen)),
    ...(looked
      ? {
          variants: {
            list: list.trim(),
            checkedBy,
            features: Object.fromEntries(features.map(({ feature, built }) => [feature.trim(), lines(built)])),
          },
        }
      : {}),
  };
}

/** R-2 before R-10. */
function inOrder(a: string, b: string): number {
  return a.localeCompare(b, 'en', { numeric: true });
}
