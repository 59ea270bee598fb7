import { Field, Select } from '../../../parts/field.js';
import { Section } from '../../../parts/sheet/sheet.js';
import { Tick } from '../../../parts/tick.js';
import type { TimeDraft } from './layout-draft.js';
import type { OfLayout } from './layout-editor.js';

const KINDS: { value: TimeDraft['kind']; word: string }[] = [
  { value: 'time', word: 'a time, in the unit of its header' },
  { value: 'sample number', word: 'a sample number, at a rate' },
  { value: 'epoch', word: 'counted from 1970-01-01, UTC' },
  { value: 'date-time', word: 'a date with its time' },
];
const EPOCH_UNITS = ['', 's', 'ms', 'us', 'ns'].map((value) => ({ value, word: value === '' ? 'choose' : value }));

/** What the time of a row is read from. */
export function TimeSection({ draft: { time }, change, inFile }: OfLayout) {
  const set = (said: Partial<TimeDraft>) => change({ time: { ...time, ...said } });
  const columns = [...new Set([time.column, ...inFile])].map((value) => ({ value, word: value }));
  return (
    <Section question="What does the clock of the rig write?" word="Time" aside="Time goes forward from row to row.">
      <div className="layout-fields">
        <Select
          label="Column of the time"
          value={time.column}
          onChange={({ target }) => set({ column: target.value })}
          options={columns}
        />
        <Select
          label="It is"
          value={time.kind}
          onChange={({ target }) => set({ kind: target.value as TimeDraft['kind'] })}
          options={KINDS}
        />
        {time.kind === 'sample number' && (
          <>
            <Field
              label="Samples in a unit of time"
              value={time.rate}
              inputMode="decimal"
              onChange={({ target }) => set({ rate: target.value })}
            />
            <Field
              label="Unit of the rate"
              value={time.rateUnit}
              onChange={({ target }) => set({ rateUnit: target.value })}
            />
          </>
        )}
        {time.kind === 'epoch' && (
          <Select
            label="Counted in"
            value={time.epochUnit}
            onChange={({ target }) => set({ epochUnit: target.value })}
            options={EPOCH_UNITS}
          />
        )}
        {time.kind === 'date-time' && (
          <>
            <Field
              label="Form of the stamps"
              value={time.form}
              placeholder="DD.MM.YYYY hh:mm:ss.f"
              onChange={({ target }) => set({ form: target.value })}
              hint="YYYY, MM, DD, hh, mm, ss, and f for a fraction; all else as it stands."
            />
            <Field
              label="Zone of the clock"
              value={time.zone}
              placeholder="+01:00, or Europe/Lisbon"
              onChange={({ target }) => set({ zone: target.value })}
            />
            <Select
              label="Column of the time of day, if apart"
              value={time.clockColumn}
              onChange={({ target }) => set({ clockColumn: target.value })}
              options={[{ value: '', word: 'in the same column' }, ...columns]}
            />
          </>
        )}
      </div>
      <Tick
        word="Rows of one stamp were taken evenly until the next"
        ticked={time.repeatedStamps}
        onTick={(repeatedStamps) => set({ repeatedStamps })}
      />
      <Tick
        word="Gaps are usual with this logger"
        ticked={time.gapsExpected}
        onTick={(gapsExpected) => set({ gapsExpected })}
      />
      <Tick
        word="A trigger starts the record before its zero of time"
        ticked={time.beginsBeforeZero}
        onTick={(beginsBeforeZero) => set({ beginsBeforeZero })}
      />
    </Section>
  );
}
