import { useId } from 'react';
import { Field } from '../../../parts/field.js';
import { Section } from '../../../parts/sheet/sheet.js';
import { type OfDraft } from './log-run-page.js';

/** Photos of the specimen as it was found; sent after the run is recorded. */
export function PhotosSection({ draft, change }: OfDraft) {
  const id = useId();
  return (
    <Section
      question="What does it look like?"
      word="Photos"
      aside="PNG or JPEG, kept as they come and printed with their words."
    >
      <div className="drop">
        <label htmlFor={id}>Take or choose photos</label>
        <input
          id={id}
          type="file"
          accept="image/png,image/jpeg"
          multiple
          onChange={({ target }) => {
            const added = [...(target.files ?? [])].map((file) => ({ file, caption: '' }));
            change({ photos: [...draft.photos, ...added] });
            target.value = '';
          }}
        />
      </div>
      {draft.photos.length > 0 && (
        <Field
          label="Camera or telephone"
          value={draft.device}
          onChange={({ target }) => change({ device: target.value })}
        />
      )}
      {draft.photos.map(({ file, caption }, index) => (
        <div key={`${file.name} ${file.lastModified}`} className="rows">
          <Field
            label={`What ${file.name} shows`}
            value={caption}
            onChange={({ target }) =>
              change({
                photos: draft.photos.map((one, place) => (place === index ? { ...one, caption: target.value } : one)),
              })
            }
          />
          <button
            type="button"
            className="plain"
            onClick={() => change({ photos: draft.photos.filter((_, place) => place !== index) })}
          >
            Take away {file.name}
          </button>
        </div>
      ))}
    </Section>
  );
}
