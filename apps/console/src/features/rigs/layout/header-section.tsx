import { Field, Select } from '../../../parts/field.js';
import { Section } from '../../../parts/sheet/sheet.js';
import type { LayoutDraft } from './layout-draft.js';
import type { OfLayout } from './layout-editor.js';

const HEADERS: { value: LayoutDraft['header']; word: string }[] = [
  { value: 'square', word: 'name [unit] in one line' },
  { value: 'round', word: 'name (unit) in one line' },
  { value: 'units in the next row', word: 'names in one line, units in the next' },
  { value: 'none', word: 'no header: said here' },
];
const REFERENCES = [
  { value: '', word: 'as the channel has it' },
  { value: 'gauge', word: 'gauge' },
  { value: 'absolute', word: 'absolute' },
];

/** Where names and units of the columns stand, and what units mean that are not written by their code. */
export function HeaderSection({ draft, change, inFile }: OfLayout) {
  const headerColumn = (at: number, said: Partial<LayoutDraft['headerColumns'][number]>) =>
    change({ headerColumns: draft.headerColumns.map((one, place) => (place === at ? { ...one, ...said } : one)) });
  const unitName = (at: number, said: Partial<LayoutDraft['unitNames'][number]>) =>
    change({ unitNames: draft.unitNames.map((one, place) => (place === at ? { ...one, ...said } : one)) });
  return (
    <Section
      question="Where do names and units stand?"
      word="Header"
      aside="Units are UCUM codes: kPa, bar, Cel, s. A unit the file does not say cannot be given to it here, but for a file without any header."
    >
      <Select
        label="Header"
        value={draft.header}
        onChange={({ target }) => {
          const header = target.value as LayoutDraft['header'];
          const none = header === 'none' && draft.headerColumns.length === 0;
          change({ header, ...(none ? { headerColumns: inFile.map((column) => ({ column, unit: '' })) } : {}) });
        }}
        options={HEADERS}
      />
      {draft.header === 'none' &&
        draft.headerColumns.map(({ column, unit }, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a column of a file without header is its place
          <fieldset key={index} className="layout-row">
            <legend>Column {index + 1} of the file</legend>
            <div className="layout-fields">
              <Field
                label="Name"
                value={column}
                onChange={({ target }) => headerColumn(index, { column: target.value })}
              />
              <Field
                label="Unit"
                value={unit}
                placeholder="none, for a stamp"
                onChange={({ target }) => headerColumn(index, { unit: target.value })}
              />
            </div>
          </fieldset>
        ))}
      {draft.unitNames.map(({ written, unit, reference }, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a row has no identity but its place while it is typed
        <fieldset key={index} className="layout-row">
          <legend>What a unit means on this rig</legend>
          <div className="layout-fields">
            <Field
              label="As it is written"
              value={written}
              onChange={({ target }) => unitName(index, { written: target.value })}
            />
            <Field
              label="Its code"
              value={unit}
              placeholder="[psi]"
              onChange={({ target }) => unitName(index, { unit: target.value })}
            />
            <Select
              label="Pressure against"
              value={reference}
              onChange={({ target }) => unitName(index, { reference: target.value })}
              options={REFERENCES}
            />
          </div>
          <button
            type="button"
            className="plain"
            onClick={() => change({ unitNames: draft.unitNames.filter((_, place) => place !== index) })}
            aria-label={`Take away unit ${written}`}
          >
            Take away
          </button>
        </fieldset>
      ))}
      <button
        type="button"
        className="action"
        onClick={() => change({ unitNames: [...draft.unitNames, { written: '', unit: '', reference: '' }] })}
      >
        Say what a unit means
      </button>
    </Section>
  );
}
