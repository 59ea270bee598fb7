import {
  COMPARISON_SIDES,
  COMPARISON_TOOLS,
  type ComparisonTool,
  type Distribution,
  type Feature,
  type Method,
  type Side,
} from '@breakbook/lab';
import { Field, RefusedAt, Select, TextArea } from '../../../parts/field.js';
import { Fold } from '../../../parts/sheet/sheet.js';
import { Tick } from '../../../parts/tick.js';
import type { CharacteristicDraft } from './declaration.js';

interface CharacteristicFieldsProps {
  draft: CharacteristicDraft;
  set: (said: Partial<CharacteristicDraft>) => void;
  /** Its place in the list. */
  index: number;
  methods: readonly Method[];
  features: readonly Feature[];
  groups: boolean;
}

const OPTIONS = {
  distribution: [
    { value: 'normal', word: 'normal' },
    { value: 'lognormal', word: 'lognormal' },
    { value: 'weibull', word: 'Weibull' },
    { value: 'distribution-free', word: 'no distribution taken for granted' },
  ],
  of: [
    { value: 'each', word: 'each item' },
    { value: 'mean', word: 'the mean of the items' },
  ],
  lots: [
    { value: 'vary', word: 'lots may differ' },
    { value: 'alike', word: 'lots are alike, and that is tested' },
  ],
  test: [
    { value: 'permutation', word: 'exact permutation' },
    { value: 'Mann-Whitney', word: 'Mann-Whitney' },
    { value: 'Welch', word: 'Welch' },
  ],
  sharedOut: [
    { value: 'specimens', word: 'specimens' },
    { value: 'lot means', word: 'means of lots' },
  ],
  better: [
    { value: 'higher', word: 'higher is better' },
    { value: 'lower', word: 'lower is better' },
  ],
} as const;

const NOT_CHOSEN = { value: '', word: 'not chosen yet' };

/** What is measured or read, in which unit, and by which tool it is compared. */
export function CharacteristicFields(given: CharacteristicFieldsProps) {
  const { draft, set, index, groups } = given;
  const at = `/characteristics/${index}`;
  return (
    <>
      <div className="fields">
        <SourceFields {...given} at={at} />
        <Field
          label="How it is called"
          at={`${at}/title`}
          value={draft.title}
          onChange={({ target }) => set({ title: target.value })}
        />
        <Field
          label="Short name"
          at={`${at}/name`}
          hint="Of its own in this comparison, such as burst."
          value={draft.name}
          onChange={({ target }) => set({ name: target.value })}
        />
        {draft.tool !== 'failure modes' && (
          <Field
            label="Unit"
            at={`${at}/unit`}
            hint="By its code, such as kPa, Cel, J or g."
            value={draft.unit}
            onChange={({ target }) => set({ unit: target.value })}
          />
        )}
      </div>
      <RefusedAt at={`${at}/tool/kind`} />
      <div className="fields">
        <Select
          label="Compared by"
          hint={COMPARISON_TOOLS[draft.tool].hint}
          value={draft.tool}
          options={Object.entries(COMPARISON_TOOLS)
            .filter(([kind]) => !(groups && kind === 'prediction'))
            .map(([value, { word }]) => ({ value, word }))}
          onChange={({ target }) => set({ tool: target.value as ComparisonTool['kind'] })}
        />
        <ToolFields draft={draft} set={set} at={`${at}/tool`} />
        {draft.tool !== 'failure modes' && (
          <Field
            label="A difference that would matter"
            at={`${at}/differenceThatMatters`}
            hint="In the same unit. Where it could not have been shown, “consistent” is not said. Left empty: none is named."
            inputMode="decimal"
            value={draft.matters}
            onChange={({ target }) => set({ matters: target.value })}
          />
        )}
      </div>
      {draft.tool !== 'failure modes' && (
        <Fold word="Items and reference were not tested on one rig">
          <Tick
            word="Add the uncertainty of the difference between rigs or labs"
            ticked={draft.betweenRigs}
            onTick={(betweenRigs) => set({ betweenRigs })}
          />
          {draft.betweenRigs && (
            <>
              <Field
                label="Standard uncertainty, in the same unit"
                at={`${at}/betweenRigs/u`}
                inputMode="decimal"
                value={draft.betweenRigsU}
                onChange={({ target }) => set({ betweenRigsU: target.value })}
              />
              <TextArea
                label="Where that is known from"
                at={`${at}/betweenRigs/from`}
                rows={2}
                value={draft.betweenRigsFrom}
                onChange={({ target }) => set({ betweenRigsFrom: target.value })}
              />
            </>
          )}
        </Fold>
      )}
    </>
  );
}

function SourceFields({ draft, set, methods, features, at }: CharacteristicFieldsProps & { at: string }) {
  const method = methods.find((one) => `${one.method} ${one.revision}` === draft.method);
  return (
    <>
      <Select
        label="Values come from"
        value={draft.from}
        options={[
          { value: 'runs', word: 'runs' },
          { value: 'examination', word: 'a feature that is examined' },
        ]}
        onChange={({ target }) => set({ from: target.value as CharacteristicDraft['from'] })}
      />
      {draft.from === 'runs' ? (
        <>
          <Select
            label="Method"
            at={`${at}/source/method`}
            value={draft.method}
            options={[
              NOT_CHOSEN,
              ...methods.map((one) => ({
                value: `${one.method} ${one.revision}`,
                word: `${one.method} rev. ${one.revision}, ${one.title}`,
              })),
            ]}
            onChange={({ target }) => set({ method: target.value, characteristic: '' })}
          />
          <Select
            label="Characteristic"
            at={`${at}/source/characteristic`}
            value={draft.characteristic}
            options={[
              NOT_CHOSEN,
              ...(method?.characteristics ?? []).map((one) => ({ value: one.characteristic, word: one.title })),
            ]}
            onChange={({ target }) => {
              const chosen = method?.characteristics.find((one) => one.characteristic === target.value);
              set({
                characteristic: target.value,
                ...(chosen
                  ? {
                      unit: chosen.unit,
                      title: draft.title === '' ? chosen.title : draft.title,
                      name: draft.name === '' ? chosen.characteristic : draft.name,
                    }
                  : {}),
              });
            }}
          />
        </>
      ) : (
        <Select
          label="Feature"
          at={`${at}/source/feature`}
          hint="Declared below, with how it is read."
          value={draft.feature}
          options={[NOT_CHOSEN, ...features.map((one) => ({ value: one.feature, word: one.title || one.feature }))]}
          onChange={({ target }) => {
            const chosen = features.find((one) => one.feature === target.value);
            set({
              feature: target.value,
              title: draft.title === '' ? (chosen?.title ?? '') : draft.title,
              name: draft.name === '' ? target.value : draft.name,
            });
          }}
        />
      )}
    </>
  );
}

type OfTool = Pick<CharacteristicFieldsProps, 'draft' | 'set'> & { at: string };

function ToolFields({ draft, set, at }: OfTool) {
  const side = (
    <Select
      label="A difference counts"
      at={`${at}/side`}
      value={draft.side}
      options={Object.entries(COMPARISON_SIDES).map(([value, word]) => ({ value, word }))}
      onChange={({ target }) => set({ side: target.value as Side })}
    />
  );
  switch (draft.tool) {
    case 'prediction':
      return (
        <>
          <Select
            label="Distribution"
            at={`${at}/distribution`}
            value={draft.distribution}
            options={OPTIONS.distribution}
            onChange={({ target }) => set({ distribution: target.value as Distribution })}
          />
          <Select
            label="Held to the bounds"
            at={`${at}/of`}
            value={draft.of}
            options={OPTIONS.of}
            onChange={({ target }) => set({ of: target.value as CharacteristicDraft['of'] })}
          />
          {side}
          <Select
            label="Lots of the reference"
            at={`${at}/lots`}
            value={draft.lots}
            options={OPTIONS.lots}
            onChange={({ target }) => set({ lots: target.value as CharacteristicDraft['lots'] })}
          />
        </>
      );
    case 'two groups':
      return (
        <>
          <Select
            label="Test"
            at={`${at}/test`}
            value={draft.test}
            options={OPTIONS.test}
            onChange={({ target }) => set({ test: target.value as CharacteristicDraft['test'] })}
          />
          {side}
          <SharedOut draft={draft} set={set} at={at} />
        </>
      );
    case 'failure modes':
      return null;
    case 'equivalence':
      return (
        <>
          <Field
            label="Margin below, less than 0"
            at={`${at}/margin`}
            inputMode="decimal"
            value={draft.marginLow}
            onChange={({ target }) => set({ marginLow: target.value })}
          />
          <Field
            label="Margin above, more than 0"
            inputMode="decimal"
            value={draft.marginHigh}
            onChange={({ target }) => set({ marginHigh: target.value })}
          />
          <SharedOut draft={draft} set={set} at={at} />
        </>
      );
    case 'non-inferiority':
      return (
        <>
          <Select
            label="Which way is better"
            at={`${at}/better`}
            value={draft.better}
            options={OPTIONS.better}
            onChange={({ target }) => set({ better: target.value as CharacteristicDraft['better'] })}
          />
          <Field
            label="Margin"
            at={`${at}/margin`}
            hint="By so much they may be worse."
            inputMode="decimal"
            value={draft.margin}
            onChange={({ target }) => set({ margin: target.value })}
          />
          <SharedOut draft={draft} set={set} at={at} />
        </>
      );
  }
}

function SharedOut({ draft, set, at }: OfTool) {
  return (
    <Select
      label="What is compared"
      at={`${at}/unit`}
      value={draft.sharedOut}
      options={OPTIONS.sharedOut}
      onChange={({ target }) => set({ sharedOut: target.value as CharacteristicDraft['sharedOut'] })}
    />
  );
}
