import { printFixed } from '@breakbook/units';
import { DropField } from '../../../parts/drop-field.js';
import { Section } from '../../../parts/sheet/sheet.js';
import { headOf } from './file-head.js';
import { fromHead, strikesOf } from './from-files.js';
import type { OfDraft } from './log-run-page.js';
import { Passages } from './passages.js';

/** The files of the rig, and which passage each of them recorded. */
export function FilesSection({ draft, change, named, unread }: OfDraft) {
  const names = (unread?.parts ?? draft.files).map(({ name }) => name);
  const test = named.method?.test;
  const take = async (chosen: readonly File[]) => {
    const added = chosen.filter(({ name }) => !draft.files.some((one) => one.name === name));
    if (added.length === 0) return;
    const heads = await Promise.all(added.map(headOf));
    const [first] = heads;
    change({
      files: [...draft.files, ...added],
      ...(test === 'impact'
        ? {
            passages: strikesOf(
              draft.passages,
              added.map(({ name }, index) => ({ name, head: heads[index] })),
              named.zone,
            ),
          }
        : {}),
      ...(first && draft.files.length === 0 ? fromHead(draft, first, named.zone) : {}),
    });
  };
  const strikes = async () => {
    const heads = unread ? [] : await Promise.all(draft.files.map(headOf));
    change({
      passages: strikesOf(
        [],
        names.map((name, index) => ({ name, head: heads[index] })),
        named.zone,
      ),
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
        <DropField label="Drop the files here, or choose them" several onFiles={(files) => void take(files)} />
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
        <Passages draft={draft} change={change} test={test} names={names} onStrikes={() => void strikes()} />
      )}
    </Section>
  );
}
