import { useQuery } from '@tanstack/react-query';
import type { ReferenceRecord } from '../../../client/answers.js';
import { lotsOfProductQuery } from '../../../client/comparison-queries.js';
import { Choice } from '../../../parts/choice.js';
import { Field, RefusedAt, Select, TextArea } from '../../../parts/field.js';
import { Picks } from '../../../parts/picks.js';
import { Section } from '../../../parts/sheet/sheet.js';
import { PickSpecimens } from '../../references/pick-specimens.js';
import type { GroupDraft } from './declaration.js';
import type { OfDeclaration } from './declare-form.js';

/** The question, and what is compared with what. */
export function QuestionSection({ draft, set, of, again }: OfDeclaration) {
  return (
    <Section
      question="What is asked?"
      word="Question"
      aside="Written before anything is tested, and printed as it is written."
    >
      <div className="fields">
        <Field
          label="Name of the comparison"
          at="/comparison"
          hint="Unique in the lab, such as C-MARKET-1."
          disabled={again}
          value={draft.comparison}
          onChange={({ target }) => set({ comparison: target.value })}
        />
        <Select
          label="Product"
          at="/product"
          disabled={again}
          value={draft.product}
          options={[
            { value: '', word: 'not chosen yet' },
            ...of.products.map(({ product, name }) => ({ value: product, word: name })),
          ]}
          onChange={({ target }) =>
            set({
              product: target.value,
              reference: '',
              items: [],
              first: { ...draft.first, lots: [] },
              second: { ...draft.second, lots: [] },
            })
          }
        />
      </div>
      <Field
        label="What it is, in a line"
        at="/title"
        value={draft.title}
        onChange={({ target }) => set({ title: target.value })}
      />
      <TextArea
        label="The question"
        at="/question"
        hint="Such as: do items X-1 and X-2 agree with model Dunlin 42, made March to June, in burst pressure, heat and mass?"
        rows={3}
        value={draft.question}
        onChange={({ target }) => set({ question: target.value })}
      />
    </Section>
  );
}

/** Items against a reference, or one group of lots against another. */
export function ComparedWithSection({ draft, set, of }: OfDeclaration) {
  const references = of.references.filter(({ content }) => content.product === draft.product);
  return (
    <Section question="What is compared with what?" word="Compared">
      <Choice
        legend="Compared are"
        options={[
          { value: 'items with a reference', word: 'items with a reference' },
          { value: 'two groups', word: 'two groups of lots' },
        ]}
        chosen={draft.what}
        onChoose={(what) => set({ what })}
      />
      {draft.what === 'items with a reference' ? (
        <>
          <Select
            label="Reference"
            at="/compared/reference"
            hint="Frozen: what is chosen otherwise later is another revision."
            value={draft.reference}
            options={referenceOptions(references, draft.reference)}
            onChange={({ target }) => set({ reference: target.value })}
          />
          <RefusedAt at="/compared/items" />
          <p role="status">
            {draft.items.length === 0
              ? 'No item is chosen yet.'
              : `Chosen: ${draft.items.map(({ specimen }) => specimen).join(', ')}.`}
          </p>
          <PickSpecimens
            product={draft.product}
            picked={draft.items}
            onPick={(items) => set({ items })}
            fits={({ destroyedIn }) => destroyedIn === undefined}
          />
        </>
      ) : (
        <>
          <Group
            label="First group, what is known"
            at="/compared/first"
            draft={draft.first}
            product={draft.product}
            onChange={(first) => set({ first })}
          />
          <Group
            label="Second group; differences are of it from the first"
            at="/compared/second"
            draft={draft.second}
            product={draft.product}
            onChange={(second) => set({ second })}
          />
        </>
      )}
    </Section>
  );
}

interface GroupProps {
  label: string;
  at: string;
  draft: GroupDraft;
  product: string;
  onChange: (group: GroupDraft) => void;
}

function Group({ label, at, draft, product, onChange }: GroupProps) {
  const { data: lots = [] } = useQuery({ ...lotsOfProductQuery(product), enabled: product !== '' });
  return (
    <fieldset className="row-of">
      <legend>{label}</legend>
      <Field
        label="What it is called"
        at={`${at}/title`}
        hint="A supplier, or “before the change”."
        value={draft.title}
        onChange={({ target }) => onChange({ ...draft, title: target.value })}
      />
      <RefusedAt at={`${at}/lots`} />
      {product === '' ? (
        <p>Choose the product first; its lots stand here then.</p>
      ) : (
        <Picks
          legend={`Lots of the group ${draft.title}`}
          several
          options={lots.map(({ lot, kind, size }) => ({ value: lot, word: lot, hint: `${kind}, ${size} made` }))}
          picked={draft.lots}
          onPick={(picked) => onChange({ ...draft, lots: picked })}
        />
      )}
    </fieldset>
  );
}

/** References in their last revision, and the one chosen where it is an earlier one. */
export function referenceOptions(references: readonly ReferenceRecord[], chosen: string) {
  const offered = references.map(({ key, content }) => ({
    value: `${key} ${content.revision}`,
    word: `${key} rev. ${content.revision}, ${content.title}`,
  }));
  const missing = chosen !== '' && !offered.some(({ value }) => value === chosen);
  return [
    { value: '', word: 'not chosen yet' },
    ...offered,
    ...(missing ? [{ value: chosen, word: chosen.replace(/ (\d+)$/, ' rev. $1') }] : []),
  ];
}
