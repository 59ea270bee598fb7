import { type Method } from '@breakbook/lab';
import { printFixed, unitSymbol } from '@breakbook/units';
import { type DragEvent, useId, useState } from 'react';
import { Field, Select } from '../../../parts/field.js';
import { Section } from '../../../parts/sheet/sheet.js';
import { clockIn } from '../../../parts/zoned.js';
import { type Draft, type PassageDraft } from './draft.js';
import { headOf } from './file-head.js';
import { unitsFor } from './keyed-names.js';
import { type OfDraft } from './log-run-page.js';
import { Rows } from './rows.js';

/** The files of the rig, and which passage each of them recorded. */
export function FilesSection({ draft, change, named, unread }: OfDraft) {
  const names = (unread?.parts ?? draft.files).map(({ name }) => name);
  const test = named.method?.test;
  const take = async (chosen: readonly File[]) => {
    const added = chosen.filter(({ name }) => !draft.files.some((one) => one.name === name));
    if (added.length === 0) return;
    const [first] = added;
    const head = first && draft.files.length === 0 ? await headOf(first) : new Map<string, string>();
    change({
      files: [...draft.files, ...added],
      ...(test === 'impact' ? { passages: withStrikes(draft, added, head, named.zone) } : {}),
      ...fromHead(draft, head, named.zone),
    });
  };
  return (
    <Section
      question="Which files did the rig write?"
      word="Files"
      aside="They are kept bit for bit. If one is refused its bytes are kept unread: a destroyed wheel cannot be run again."
    >
      {unread ? (
        <p>
          The kept bytes of unread file {unread.number}: <bdi>{names.join(', ')}</bdi>.
        </p>
      ) : (
        <DropField onFiles={(files) => void take(files)} />
      )}
      {!unread && draft.files.length > 0 && (
        <ul className="taken">
          {draft.files.map((file) => (
            <li key={file.name}>
              <bdi>{file.name}</bdi> <span className="quiet">{printFixed(file.size, 0)} bytes</span>
              <button
                type="button"
                className="plain"
                aria-label={`Take away ${file.name}`}
                onClick={() =>
                  change({
                    files: draft.files.filter((one) => one !== file),
                    passages: draft.passages.map((one) => (one.file === file.name ? { ...one, file: '' } : one)),
                  })
                }
              >
                Take away
              </button>
            </li>
          ))}
        </ul>
      )}
      {(test === 'heat' || test === 'impact' || names.length > 1 || draft.passages.length > 0) && (
        <Passages draft={draft} change={change} test={test} names={names} />
      )}
    </Section>
  );
}

function DropField({ onFiles }: { onFiles: (files: File[]) => void }) {
  const id = useId();
  const [over, setOver] = useState(false);
  const drop = (event: DragEvent) => {
    event.preventDefault();
    setOver(false);
    onFiles([...event.dataTransfer.files]);
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping is a shortcut; the file field inside does the same
    <div
      className={over ? 'drop over' : 'drop'}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={drop}
    >
      <label htmlFor={id}>Drop the files here, or choose them</label>
      <input
        id={id}
        type="file"
        multiple
        onChange={({ target }) => {
          onFiles([...(target.files ?? [])]);
          target.value = '';
        }}
      />
    </div>
  );
}

/** What the file says of itself fills in what nobody has typed yet. */
function fromHead(draft: Draft, head: ReadonlyMap<string, string>, zone: string): Partial<Draft> {
  const [specimen, rig, started] = [head.get('specimen'), head.get('rig'), head.get('started')];
  const began = started === undefined || Number.isNaN(Date.parse(started)) ? undefined : clockIn(zone, started);
  const named = new Set(draft.conditions.map(({ name }) => name));
  const conditions = [...head]
    .filter(([name]) => !OWN_FIELDS.has(name) && !named.has(name))
    .map(([name, value]) => ({ id: crypto.randomUUID(), name, value, unit: '' }));
  return {
    ...(draft.specimen === '' && specimen !== undefined ? { specimen } : {}),
    ...(draft.rig === '' && rig !== undefined ? { rig } : {}),
    ...(draft.startedAt === '' && began !== undefined ? { startedAt: began } : {}),
    ...(conditions.length > 0 ? { conditions: [...draft.conditions, ...conditions] } : {}),
  };
}

const OWN_FIELDS = new Set(['specimen', 'rig', 'started', 'passage', 'layout']);

/** Each file of an impact run is the record of one strike. */
function withStrikes(
  { passages }: Draft,
  files: readonly File[],
  head: ReadonlyMap<string, string>,
  zone: string,
): PassageDraft[] {
  const started = head.get('started');
  const began = started === undefined || Number.isNaN(Date.parse(started)) ? '' : clockIn(zone, started);
  return [
    ...passages,
    ...files.map(({ name }, index) => ({
      ...freshPassage('impact'),
      title: `Strike ${passages.length + index + 1}`,
      file: name,
      startedAt: index === 0 ? began : '',
    })),
  ];
}

const KINDS = [
  { value: 'stage', word: 'stage' },
  { value: 'strike', word: 'strike' },
  { value: 'step', word: 'step' },
];

function freshPassage(test: Method['test'] | undefined): PassageDraft {
  const kind = test === 'impact' ? 'strike' : test === 'heat' ? 'stage' : 'step';
  return {
    id: crypto.randomUUID(),
    kind,
    title: '',
    startedAt: '',
    place: '',
    file: '',
    target: '',
    targetUnit: test === 'heat' ? 'W' : 'J',
    found: '',
  };
}

interface PassagesProps extends Pick<OfDraft, 'draft' | 'change'> {
  test: Method['test'] | undefined;
  /** Of the files. */
  names: readonly string[];
}

function Passages({ draft, change, test, names }: PassagesProps) {
  return (
    <>
      <h3>Passages: the strikes, stages or steps of this run, in their order</h3>
      <Rows<PassageDraft>
        rows={draft.passages}
        what="Passage"
        add={test === 'impact' ? 'Add a strike' : test === 'heat' ? 'Add a stage' : 'Add a passage'}
        fresh={() => freshPassage(test)}
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
