import { photosAskedOf } from '@breakbook/lab';
import { useId } from 'react';
import '../../../parts/drop-field.css';
import { Field, Select } from '../../../parts/field.js';
import { Section } from '../../../parts/sheet/sheet.js';
import { AskedPhotosList, photoChoices } from '../photos/asked-photos.js';
import type { Draft } from './draft.js';
import type { OfDraft } from './log-run-page.js';

/** Photos of the specimen as it was found; sent after the run is recorded. */
export function PhotosSection({ draft, change, named: { method } }: OfDraft) {
  const id = useId();
  const asked = photosAskedOf(method?.failureModes ?? [], { examination: draft, photos: draft.photos });
  const described = (at: number, said: Partial<Draft['photos'][number]>) =>
    change({ photos: draft.photos.map((one, place) => (place === at ? { ...one, ...said } : one)) });
  return (
    <Section
      question="What does it look like?"
      word="Photos"
      aside="PNG or JPEG, kept as they come and printed with their words."
    >
      <AskedPhotosList asked={asked} />
      <div className="drop">
        <label htmlFor={id}>Take or choose photos</label>
        <input
          id={id}
          type="file"
          accept="image/png,image/jpeg"
          multiple
          onChange={({ target }) => {
            const added = [...(target.files ?? [])].map((file) => ({ file, caption: '', shows: '' }));
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
      {draft.photos.map(({ file, caption, shows }, index) => (
        <div key={`${file.name} ${file.lastModified}`} className="rows">
          <Field
            label={`What ${file.name} shows`}
            value={caption}
            onChange={({ target }) => described(index, { caption: target.value })}
          />
          {asked.length > 0 && (
            <Select
              label={`Which of those asked for ${file.name} is`}
              value={shows}
              onChange={({ target }) => described(index, { shows: target.value })}
              options={photoChoices(asked)}
            />
          )}
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
