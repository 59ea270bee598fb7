import { UnitCode } from '@breakbook/lab';
import { printDeclared, printPercent, printSignificant } from '@breakbook/units';
import { Field, Select } from '../../parts/field.js';
import { Slider } from '../../parts/slider.js';
import type { Wanted } from './wanted.js';

const STAGED = [
  { value: 'lognormal', word: 'lognormal strengths' },
  { value: 'normal', word: 'normal strengths' },
  { value: 'weibull', word: 'Weibull strengths (takes longer)' },
] as const;

/** What is wanted and expected, each by a slider or a field. */
export function WantedSliders({ wanted, onChange }: { wanted: Wanted; onChange: (next: Partial<Wanted>) => void }) {
  const { limit, unit, n, coverage, confidence, margin, cv, lotSize, perSpecimen, rigHours, distribution } = wanted;
  const { loadRatio, shape, shapeSource } = wanted;
  const positive = (name: 'limit' | 'perSpecimen' | 'rigHours', text: string) => {
    const number = Number(text);
    if (Number.isFinite(number) && (number > 0 || name !== 'limit')) onChange({ [name]: Math.max(0, number) });
  };
  return (
    <div className="sliders">
      <Field
        label="Limit, at least"
        inputMode="decimal"
        defaultValue={String(limit)}
        onChange={(event) => positive('limit', event.target.value)}
      />
      <Field
        label="Unit"
        defaultValue={unit}
        hint="A UCUM code, such as kPa, J or kJ"
        onChange={(event) => {
          const code = UnitCode.safeParse(event.target.value.trim());
          if (code.success) onChange({ unit: code.data });
        }}
      />
      <Slider
        label="Share that must hold it"
        value={coverage}
        min={0.5}
        max={0.99}
        step={0.01}
        says={printPercent(coverage)}
        onChange={(value) => onChange({ coverage: value })}
      />
      <Slider
        label="Confidence"
        value={confidence}
        min={0.55}
        max={0.99}
        step={0.01}
        says={printPercent(confidence)}
        onChange={(value) => onChange({ confidence: value })}
      />
      <Slider
        label="Mean expected"
        value={margin}
        min={0.9}
        max={2}
        step={0.01}
        says={`${printSignificant(limit * margin, 4)} ${unit}, ${printDeclared(margin)} × limit`}
        onChange={(value) => onChange({ margin: value })}
      />
      <Slider
        label="Scatter expected"
        value={cv}
        min={0.01}
        max={0.25}
        step={0.005}
        says={`${printPercent(cv)} of the mean`}
        onChange={(value) => onChange({ cv: value })}
      />
      <Slider
        label="Units in the lot"
        value={lotSize}
        min={0}
        max={200}
        step={5}
        says={lotSize > 1 ? printDeclared(lotSize) : 'the process'}
        hint="At 0 the claim is about the process that makes the lots"
        onChange={(value) => onChange({ lotSize: value })}
      />
      <Slider
        label="Specimens at hand"
        value={n}
        min={2}
        max={60}
        step={1}
        says={printDeclared(n)}
        onChange={(value) => onChange({ n: value })}
      />
      <Select
        label="What the staged bound assumes"
        value={distribution}
        options={STAGED}
        onChange={({ target }) => {
          const chosen = STAGED.find(({ value }) => value === target.value);
          if (chosen) onChange({ distribution: chosen.value });
        }}
      />
      <Field
        label="Cost of a specimen"
        inputMode="decimal"
        defaultValue={perSpecimen === 0 ? '' : String(perSpecimen)}
        hint="In the money of the lab; left empty, none is shown"
        onChange={(event) => positive('perSpecimen', event.target.value)}
      />
      <Field
        label="Rig hours of a run"
        inputMode="decimal"
        defaultValue={rigHours === 0 ? '' : String(rigHours)}
        onChange={(event) => positive('rigHours', event.target.value)}
      />
      <Slider
        label="Load of a test above the limit"
        value={loadRatio}
        min={1}
        max={2}
        step={0.05}
        says={loadRatio > 1 ? `${printDeclared(loadRatio)} × limit` : 'at the limit'}
        hint="Fewer specimens, on the word of an assumed Weibull shape"
        onChange={(value) => onChange({ loadRatio: value })}
      />
      {loadRatio > 1 && (
        <>
          <Slider
            label="Lowest plausible Weibull shape"
            value={shape}
            min={1}
            max={30}
            step={0.5}
            says={printDeclared(shape)}
            hint="A shape too high makes the claim too bold"
            onChange={(value) => onChange({ shape: value })}
          />
          <Field
            label="Where that shape comes from"
            value={shapeSource}
            hint="Earlier lots, or a source; without one nothing is claimed from it"
            onChange={({ target }) => onChange({ shapeSource: target.value })}
          />
        </>
      )}
    </div>
  );
}
