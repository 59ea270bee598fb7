import { Field, RefusedAt, Select, TextArea } from '../../../parts/field.js';
import { Picks } from '../../../parts/picks.js';
import { Fold, Section } from '../../../parts/sheet/sheet.js';
import { Tick } from '../../../parts/tick.js';
import { referenceOptions } from './compared-section.js';
import type { Declaration } from './declaration.js';
import type { OfDeclaration } from './declare-form.js';

/** How surely, and against which other making. */
export function SurelySection({ draft, set, of }: OfDeclaration) {
  return (
    <Section
      question="How surely?"
      word="Confidence"
      aside="Of all declared characteristics together: an item that agrees in all of them is called out at most in the rest of the time."
    >
      <div className="fields">
        <Field
          label="Confidence, %"
          at="/confidence"
          inputMode="decimal"
          value={draft.confidence}
          onChange={({ target }) => set({ confidence: target.value })}
        />
        <Select
          label="Correction for several characteristics"
          at="/correction"
          value={draft.correction}
          options={[
            { value: 'Holm', word: 'Holm' },
            { value: 'Bonferroni', word: 'Bonferroni' },
            { value: 'none', word: 'none, for one characteristic alone' },
          ]}
          onChange={({ target }) => set({ correction: target.value as Declaration['correction'] })}
        />
        <Field
          label="Power, %"
          at="/power"
          hint="With this chance, the smallest difference told would have been found."
          inputMode="decimal"
          value={draft.power}
          onChange={({ target }) => set({ power: target.value })}
        />
        <Field
          label="Seed of simulated levels"
          at="/seed"
          hint="Any whole number; with it everybody reckons the same."
          inputMode="numeric"
          value={draft.seed}
          onChange={({ target }) => set({ seed: target.value })}
        />
      </div>
      <Fold word="Units of another known making are there as well">
        <Tick
          word="Tell a likelihood ratio of one making against the other"
          ticked={draft.hasAlternative}
          onTick={(hasAlternative) => set({ hasAlternative })}
        />
        {draft.hasAlternative && (
          <>
            <TextArea
              label="The other making, as it is stated"
              at="/alternative/statement"
              hint="Such as: made in the mould of 2024."
              rows={2}
              value={draft.alternative}
              onChange={({ target }) => set({ alternative: target.value })}
            />
            <Select
              label="Units known to be of it"
              at="/alternative/reference"
              value={draft.alternativeReference}
              options={referenceOptions(
                of.references.filter(({ content }) => content.product === draft.product),
                draft.alternativeReference,
              )}
              onChange={({ target }) => set({ alternativeReference: target.value })}
            />
          </>
        )}
      </Fold>
    </Section>
  );
}

/** Who does not know which item is which, and whether somebody has to agree. */
export function BlindSection({ draft, set, of }: OfDeclaration) {
  const people = of.people.map(({ person, name }) => ({ value: person, word: name }));
  return (
    <Section
      question="Who must not know which item is which?"
      word="Blind"
      aside="Until conclusions are locked, they see codes, and nothing that tells where an item is from."
    >
      <Tick word="Items are examined blind" ticked={draft.isBlind} onTick={(isBlind) => set({ isBlind })} />
      {draft.isBlind && (
        <>
          <Picks
            legend="They are blinded"
            several
            options={people}
            picked={draft.blinded}
            onPick={(blinded) => set({ blinded })}
          />
          <RefusedAt at="/blind/blinded" />
          <Select
            label="Who keeps the list of codes"
            at="/blind/listKeptBy"
            value={draft.listKeptBy}
            options={[{ value: '', word: 'not chosen yet' }, ...people]}
            onChange={({ target }) => set({ listKeptBy: target.value })}
          />
        </>
      )}
      <Tick
        word="Remnants may go to court: consent or notice is recorded before a step that changes an item"
        ticked={draft.mayGoToCourt}
        onTick={(mayGoToCourt) => set({ mayGoToCourt })}
      />
    </Section>
  );
}
