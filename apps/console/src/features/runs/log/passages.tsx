import type { Method } from '@breakbook/lab';
import { unitSymbol } from '@breakbook/units';
import { Field, Select } from '../../../parts/field.js';
import type { PassageDraft } from './draft.js';
import { freshPassage } from './from-files.js';
import { unitsFor } from './keyed-names.js';
import type { OfDraft } from './log-run-page.js';
import { Rows } from './rows.js';

const KINDS = [
  { value: 'stage', word: 'stage' },
  { value: 'strike', word: 'strike' },
  { value: 'step', word: 'step' },
];

interface PassagesProps extends Pick<OfDraft, 'draft' | 'change'> {
  test: Method['test'] | undefined;
  /** Of the files. */
  names: readonly string[];
  /** Makes a strike of each file. */
  onStrikes: () => void;
}

/** The strikes, stages or steps of a run: when each began, where, what was aimed at and which file recorded it. */
export function Passages({ draft, change, test, names, onStrikes }: PassagesProps) {
  return (
    <>
      <h3>Passages: the strikes, stages or steps of this run, in their order</h3>
      {test === 'impact' && draft.passages.length === 0 && names.length > 0 && (
        <p>
          <button type="button" className="plain" onClick={onStrikes}>
            Make a strike of each file
          </button>
        </p>
      )}
      <Rows<PassageDraft>
        rows={draft.passages}
        what="Passage"
        add={test === 'impact' ? 'Add a strike' : test === 'heat' ? 'Add a stage' : 'Add a passage'}
        fresh={() => freshPassage(test, draft)}
        onRows={(passages) => change({ passages })}
      >
        {(row, set) => (
          <div className="row">
            <Select
              label="Kind"
              value={row.kind}
              options={KINDS}
              onChange={({ target }) => set({ kind: target.value as PassageDraft['kind'] })}
            />
            <Field label="Title" value={row.title} onChange={({ target }) => set({ title: target.value })} />
            <Field
              label="Began"
              type="datetime-local"
              step={1}
              value={row.startedAt}
              onChange={({ target }) => set({ startedAt: target.value })}
            />
            <Field
              label="Place on the part"
              value={row.place}
              onChange={({ target }) => set({ place: target.value })}
            />
            <Select
              label="File"
              value={row.file}
              options={[
                { value: '', word: 'the file of the whole run' },
                ...names.map((name) => ({ value: name, word: name })),
              ]}
              onChange={({ target }) => set({ file: target.value })}
            />
            <Field
              label="Aimed at"
              inputMode="decimal"
              value={row.target}
              onChange={({ target }) => set({ target: target.value })}
            />
            <Select
              label="Its unit"
              value={row.targetUnit}
              options={unitsFor(undefined).map((code) => ({ value: code, word: unitSymbol(code) || code }))}
              onChange={({ target }) => set({ targetUnit: target.value })}
            />
            <Select
              label="Found after it"
              value={row.found}
              options={[
                { value: '', word: 'not said' },
                { value: 'whole', word: 'whole' },
                { value: 'damaged', word: 'damaged' },
                { value: 'not examined', word: 'not examined' },
              ]}
              onChange={({ target }) => set({ found: target.value as PassageDraft['found'] })}
            />
          </div>
        )}
      </Rows>
    </>
  );
}
