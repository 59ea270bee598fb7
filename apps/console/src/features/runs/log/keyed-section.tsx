import { unitSymbol } from '@breakbook/units';
import { useId } from 'react';
import { Field, Select, TextArea } from '../../../parts/field.js';
import { inWords } from '../../../parts/in-words.js';
import { Section } from '../../../parts/sheet/sheet.js';
import { clockIn } from '../../../parts/zoned.js';
import { afterOf } from './after-of.js';
import type { ConditionDraft, MeasurementDraft } from './draft.js';
import { keyedNames, unitsFor } from './keyed-names.js';
import type { OfDraft } from './log-run-page.js';
import { Rows } from './rows.js';

const WHOSE = [
  { value: '', word: 'measured by this lab' },
  { value: 'customer', word: 'given by the customer' },
  { value: 'outside provider', word: 'given by an outside provider' },
] as const satisfies readonly { value: MeasurementDraft['givenBy']; word: string }[];

/** What a person read from an instrument: each value with its unit, instrument and place. */
export function KeyedSection({ draft, change, named: { method, zone } }: OfDraft) {
  const names = method ? keyedNames(method) : {};
  const after = afterOf(draft.measurements, names, clockIn(zone, Date.now()));
  const list = useId();
  return (
    <Section
      question="What did you read from instruments?"
      word="Measurements"
      aside="Values keyed by hand. No unit is assumed: choose the one the instrument shows."
    >
      <datalist id={list}>
        {Object.keys(names).map((name) => (
          <option key={name} value={name} label={inWords(name)} />
        ))}
      </datalist>
      <Rows<MeasurementDraft>
        rows={draft.measurements}
        what="Measurement"
        add="Add a measurement"
        fresh={() => {
          const before = draft.measurements.at(-1);
          return {
            id: crypto.randomUUID(),
            of: before?.of ?? '',
            value: '',
            unit: before?.unit ?? '',
            instrument: before?.instrument ?? '',
            givenBy: before?.givenBy ?? '',
            place: '',
            passage: before?.passage ?? '',
            at: clockIn(zone, Date.now()),
          };
        }}
        onRows={(measurements) => change({ measurements })}
      >
        {(row, set) => (
          <div className="row">
            <Field label="Of" list={list} value={row.of} onChange={({ target }) => set({ of: target.value })} />
            <Field
              label="Value"
              inputMode="decimal"
              value={row.value}
              onChange={({ target }) => set({ value: target.value })}
            />
            <UnitSelect kind={names[row.of]} value={row.unit} onUnit={(unit) => set({ unit })} none="choose" />
            <Field
              label="Instrument"
              value={row.instrument}
              onChange={({ target }) => set({ instrument: target.value })}
            />
            <Select
              label="Whose value"
              value={row.givenBy}
              options={WHOSE}
              onChange={({ target }) => set({ givenBy: target.value as MeasurementDraft['givenBy'] })}
            />
            <Field label="Place" value={row.place} onChange={({ target }) => set({ place: target.value })} />
            <Field
              label="Read at"
              type="datetime-local"
              step={1}
              value={row.at}
              onChange={({ target }) => set({ at: target.value })}
            />
            {draft.passages.length > 1 && (
              <Select
                label="Passage"
                value={row.passage}
                options={[
                  { value: '', word: 'the whole run' },
                  ...draft.passages.map(({ title }, index) => ({
                    value: String(index + 1),
                    word: `${index + 1}: ${title}`,
                  })),
                ]}
                onChange={({ target }) => set({ passage: target.value })}
              />
            )}
          </div>
        )}
      </Rows>
      {after.length > 0 && (
        <p>
          <button
            type="button"
            className="plain"
            onClick={() => change({ measurements: [...draft.measurements, ...after] })}
          >
            Add the same places after the run ({after.length})
          </button>
        </p>
      )}
    </Section>
  );
}

/** Under which conditions was it made, and where did it depart from the method? */
export function ConditionsSection({ draft, change }: OfDraft) {
  return (
    <Section question="Under which conditions?" word="Conditions">
      <Rows<ConditionDraft>
        rows={draft.conditions}
        what="Condition"
        add="Add a condition"
        fresh={() => ({ id: crypto.randomUUID(), name: '', value: '', unit: '' })}
        onRows={(conditions) => change({ conditions })}
      >
        {(row, set) => (
          <div className="row">
            <Field label="What" value={row.name} onChange={({ target }) => set({ name: target.value })} />
            <Field label="Is" value={row.value} onChange={({ target }) => set({ value: target.value })} />
            <UnitSelect kind={undefined} value={row.unit} onUnit={(unit) => set({ unit })} none="words, no unit" />
          </div>
        )}
      </Rows>
      <TextArea
        label="Deviations from the method"
        rows={3}
        value={draft.deviations}
        onChange={({ target }) => change({ deviations: target.value })}
        hint="One on each line. Leave empty where the run was made as the method asks."
      />
    </Section>
  );
}

function UnitSelect(given: {
  kind: Parameters<typeof unitsFor>[0];
  value: string;
  onUnit: (unit: string) => void;
  none: string;
}) {
  return (
    <Select
      label="Unit"
      value={given.value}
      options={[
        { value: '', word: given.none },
        ...unitsFor(given.kind).map((code) => ({ value: code, word: unitSymbol(code) || code })),
      ]}
      onChange={({ target }) => given.onUnit(target.value)}
    />
  );
}
