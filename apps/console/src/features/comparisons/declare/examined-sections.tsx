import { type Feature, FeatureKind } from '@breakbook/lab';
import { Field, Select, TextArea } from '../../../parts/field.js';
import { Rows } from '../../../parts/rows.js';
import { Section } from '../../../parts/sheet/sheet.js';
import { Tick } from '../../../parts/tick.js';
import { CharacteristicFields } from './characteristic-fields.js';
import { FRESH_CHARACTERISTIC, FRESH_FEATURE } from './declaration.js';
import type { OfDeclaration } from './declare-form.js';

/** The characteristics that are compared; whatever each shows is told. */
export function CharacteristicsSection({ draft, set, of }: OfDeclaration) {
  return (
    <Section
      question="In which characteristics?"
      word="Characteristics"
      aside="Results of all of them are told. Each further one makes all bounds wider: declare those that answer the question."
    >
      <Rows
        rows={draft.characteristics}
        thing="Characteristic"
        named={({ title }) => title}
        fresh={() => FRESH_CHARACTERISTIC}
        atLeast={1}
        onChange={(characteristics) => set({ characteristics })}
      >
        {(row, now, index) => (
          <CharacteristicFields
            draft={row}
            set={now}
            index={index}
            methods={of.methods}
            features={draft.features}
            groups={draft.what === 'two groups'}
          />
        )}
      </Rows>
    </Section>
  );
}

/** What is looked at on every item and on the reference, in its order. */
export function FeaturesSection({ draft, set }: OfDeclaration) {
  return (
    <Section
      question="What is looked at, in which order?"
      word="Features"
      aside="What does not change the item first. A covert feature is none of these: it stands in a protected note."
    >
      <Rows<Feature>
        rows={draft.features}
        thing="Feature"
        named={({ title }) => title}
        fresh={() => FRESH_FEATURE}
        onChange={(features) => set({ features })}
      >
        {(row, now, index) => <FeatureFields row={row} now={now} at={`/features/${index}`} />}
      </Rows>
    </Section>
  );
}

function FeatureFields({ row, now, at }: { row: Feature; now: (said: Partial<Feature>) => void; at: string }) {
  return (
    <>
      <div className="fields">
        <Field
          label="How it is called"
          at={`${at}/title`}
          value={row.title}
          onChange={({ target }) => now({ title: target.value })}
        />
        <Field
          label="Short name"
          at={`${at}/feature`}
          hint="Of its own in this comparison, such as label."
          value={row.feature}
          onChange={({ target }) => now({ feature: target.value })}
        />
        <Select
          label="Kind"
          at={`${at}/kind`}
          value={row.kind}
          options={FeatureKind.options.map((value) => ({ value, word: value }))}
          onChange={({ target }) => now({ kind: target.value as Feature['kind'] })}
        />
      </div>
      <TextArea
        label="How it is read and written down"
        at={`${at}/howRead`}
        hint="So that like is written alike, such as: letter by letter, capitals as printed."
        rows={2}
        value={row.howRead}
        onChange={({ target }) => now({ howRead: target.value })}
      />
      <Tick word="Looking changes the item" ticked={row.changesItem} onTick={(changesItem) => now({ changesItem })} />
    </>
  );
}

/** What could have been examined and is not. */
export function LeftOutSection({ draft, set }: OfDeclaration) {
  return (
    <Section question="What is not examined?" word="Not examined" aside="Printed with every conclusion.">
      <TextArea
        label="What could have been examined and is not"
        at="/notExamined"
        hint="One a line, such as: side load stiffness; resin by infrared spectroscopy; records of the maker."
        rows={4}
        value={draft.notExamined}
        onChange={({ target }) => set({ notExamined: target.value })}
      />
    </Section>
  );
}
