import { EndReason } from '@breakbook/lab';
import { Field, TextArea } from '../../../parts/field.js';
import { Picks } from '../../../parts/picks.js';
import { Section } from '../../../parts/sheet/sheet.js';
import type { OfDraft } from './log-run-page.js';

const SOUND = [
  { value: 'sound', word: 'Sound', hint: 'Looked at all round and found whole.' },
  { value: 'not sound', word: 'Not sound' },
  { value: 'not examined', word: 'Not examined', hint: 'Nobody has looked yet; it is then not known.' },
] as const;

/** What was found on the specimen: why the run ended, what gave way and in which order, whether the part was whole. */
export function FoundSection({ draft, change, named: { method } }: OfDraft) {
  const known = method?.failureModes ?? [];
  return (
    <Section
      question="What was found on the specimen?"
      word="Found"
      aside="Vent or cool down, and see that it is so, before hands go near. Broken composite splinters: gloves and eye protection."
    >
      <Picks
        legend="The run ended because"
        options={EndReason.options.map((value) => ({ value, word: value }))}
        picked={draft.endReason === undefined ? [] : [draft.endReason]}
        onPick={([endReason]) => endReason !== undefined && change({ endReason })}
      />
      {known.length > 0 && (
        <Picks
          several
          legend="What gave way: tick what came first first"
          options={known.map(({ code, meaning }) => {
            const place = draft.modes.findIndex((one) => one.code === code);
            return {
              value: code,
              word: `${code}: ${meaning}`,
              hint: place < 0 ? undefined : place === 0 ? 'came first' : `number ${place + 1}`,
            };
          })}
          picked={draft.modes.map(({ code }) => code)}
          onPick={(codes) =>
            change({
              modes: codes.map((code) => draft.modes.find((one) => one.code === code) ?? { code, place: '' }),
            })
          }
        />
      )}
      {draft.modes.map(({ code, place }) => (
        <Field
          key={code}
          label={`Where: ${code}`}
          value={place}
          placeholder="49° from the valve, left side"
          onChange={({ target }) =>
            change({
              modes: draft.modes.map((one) => (one.code === code ? { ...one, place: target.value } : one)),
            })
          }
        />
      ))}
      <Picks
        legend="The part under test was found"
        options={SOUND}
        picked={draft.partSound === undefined ? [] : [draft.partSound]}
        onPick={([partSound]) => partSound !== undefined && change({ partSound })}
      />
      <TextArea label="Note" rows={3} value={draft.note} onChange={({ target }) => change({ note: target.value })} />
    </Section>
  );
}
