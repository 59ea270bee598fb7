import { Field, Select } from '../../../parts/field.js';
import { Section } from '../../../parts/sheet/sheet.js';
import { Tick } from '../../../parts/tick.js';
import type { OfLayout } from './layout-editor.js';

const plain = (words: readonly string[]) => words.map((word) => ({ value: word, word }));
const ENCODINGS = plain(['utf-8', 'utf-16le', 'utf-16be', 'latin-1', 'windows-1252']);
const DELIMITERS = plain(['comma', 'semicolon', 'tab']);
const DECIMALS = plain(['point', 'comma']);
const THOUSANDS = [{ value: '', word: 'none' }, ...plain(['point', 'comma', 'apostrophe', 'space'])];
const LINE_ENDS = [
  { value: '', word: 'LF, or CR LF' },
  { value: 'CR', word: 'CR alone' },
];

/** How bytes and cells are written, and what the file says of its run. */
export function TextSection({ draft, change }: OfLayout) {
  return (
    <Section
      question="How is the text written?"
      word="Text"
      aside="What departs from it is refused, with its line and column."
    >
      <div className="layout-fields">
        <Select
          label="Encoding"
          value={draft.encoding}
          onChange={({ target }) => change({ encoding: target.value })}
          options={ENCODINGS}
        />
        <Select
          label="Cells are parted by"
          value={draft.delimiter}
          onChange={({ target }) => change({ delimiter: target.value })}
          options={DELIMITERS}
        />
        <Select
          label="Decimal mark"
          value={draft.decimalMark}
          onChange={({ target }) => change({ decimalMark: target.value })}
          options={DECIMALS}
        />
        <Select
          label="Thousands mark"
          value={draft.thousandsMark}
          onChange={({ target }) => change({ thousandsMark: target.value })}
          options={THOUSANDS}
        />
        <Select
          label="Line ends"
          value={draft.lineEnds}
          onChange={({ target }) => change({ lineEnds: target.value })}
          options={LINE_ENDS}
        />
        <Field
          label="Comment mark"
          value={draft.commentMark}
          placeholder="#"
          onChange={({ target }) => change({ commentMark: target.value })}
          hint="What a line of metadata begins with; # where it is left empty."
        />
        <Field
          label="Lines passed over at the top"
          value={draft.preambleLines}
          inputMode="numeric"
          placeholder="0"
          onChange={({ target }) => change({ preambleLines: target.value })}
        />
        <Field
          label="Packed by gzip: bytes unpacked at most"
          value={draft.gzipUpTo}
          inputMode="numeric"
          placeholder="never packed"
          onChange={({ target }) => change({ gzipUpTo: target.value })}
        />
      </div>
      <Tick
        word="The file says its specimen, rig and start in lines of metadata"
        ticked={draft.carriesMetadata}
        onTick={(carriesMetadata) => change({ carriesMetadata })}
      />
      <div className="layout-fields">
        {draft.carriesMetadata && (
          <Field
            label="Metadata that must be there besides"
            value={draft.requiredMetadata}
            placeholder="medium, sampleRate"
            onChange={({ target }) => change({ requiredMetadata: target.value })}
            hint="Names, separated by commas."
          />
        )}
        <Field
          label="Zone of the rig’s clock, for a start without one"
          value={draft.clockZone}
          placeholder="+01:00, or Europe/Lisbon"
          onChange={({ target }) => change({ clockZone: target.value })}
        />
      </div>
    </Section>
  );
}
