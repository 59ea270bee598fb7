import { Field, Select } from '../../../parts/field.js';
import { inWords } from '../../../parts/in-words.js';
import { Section } from '../../../parts/sheet/sheet.js';
import { Tick } from '../../../parts/tick.js';
import type { ColumnDraft } from './layout-draft.js';
import type { OfLayout } from './layout-editor.js';

/** Which column carries which channel, and how its numbers are to be taken. */
export function ColumnsSection({ draft, change, channels }: OfLayout) {
  const set = (at: number, said: Partial<ColumnDraft>) =>
    change({ columns: draft.columns.map((one, place) => (place === at ? { ...one, ...said } : one)) });
  return (
    <Section
      question="Which column carries which channel?"
      word="Columns"
      aside="Corrections are no matter of a layout: they come from calibrations. Scale is what the logger does to the number; below zero where the sensor is mounted the other way round."
    >
      {draft.columns.map((one, index) => (
        <fieldset key={one.column} className="layout-row">
          <legend>
            <bdi>{one.column}</bdi>
          </legend>
          <div className="layout-fields">
            <Select
              label="Channel"
              value={one.channel}
              onChange={({ target }) => set(index, { channel: target.value })}
              options={[
                { value: '', word: 'none: not read' },
                ...[...new Set([...channels, ...(one.channel === '' ? [] : [one.channel])])].map((value) => ({
                  value,
                  word: inWords(value),
                })),
              ]}
            />
            {one.channel !== '' && (
              <>
                <Field
                  label="Sign and scale"
                  value={one.scale}
                  inputMode="decimal"
                  placeholder="1"
                  onChange={({ target }) => set(index, { scale: target.value })}
                />
                <Field
                  label="What stands for no reading"
                  value={one.noReading}
                  placeholder="OL | Err"
                  onChange={({ target }) => set(index, { noReading: target.value })}
                  hint="Separated by bars."
                />
                <Field
                  label="Sampled only every"
                  value={one.sampledEvery}
                  inputMode="decimal"
                  placeholder="in each row"
                  onChange={({ target }) => set(index, { sampledEvery: target.value })}
                />
                {one.sampledEvery !== '' && (
                  <Field
                    label="Unit of that time"
                    value={one.sampledEveryUnit}
                    onChange={({ target }) => set(index, { sampledEveryUnit: target.value })}
                  />
                )}
              </>
            )}
          </div>
          {one.channel !== '' && (
            <Tick
              word="An empty cell is no reading"
              ticked={one.emptyIsNoReading}
              onTick={(emptyIsNoReading) => set(index, { emptyIsNoReading })}
            />
          )}
        </fieldset>
      ))}
    </Section>
  );
}
