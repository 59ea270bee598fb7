import { type PhotosOfThing, photosMissing } from '@breakbook/lab';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { seatTaken } from '../../../client/queries.js';
import { isSignedOut } from '../../../client/read.js';
import { sendPhoto } from '../../../client/send-photo.js';
import { DropField } from '../../../parts/drop-field.js';
import { Field, FormProblem, Select } from '../../../parts/field.js';
import { photoChoices } from './asked-photos.js';

/** Attaches one more photo to a run, saying what it shows. */
export function AddPhoto({ run, person, asked }: { run: string; person: string; asked: readonly PhotosOfThing[] }) {
  const queries = useQueryClient();
  const [file, setFile] = useState<File>();
  const [shows, setShows] = useState(photosMissing(asked)[0]?.of ?? '');
  const [caption, setCaption] = useState('');
  const [device, setDevice] = useState('');
  const add = useMutation({
    mutationFn: (chosen: File) =>
      sendPhoto(run, chosen, {
        caption: caption.trim(),
        ...(shows === '' ? {} : { shows }),
        device: device.trim(),
        takenBy: person,
        takenAt: new Date(chosen.lastModified).toISOString(),
      }),
    onError: (error) => {
      if (isSignedOut(error)) seatTaken(queries, null);
    },
    onSuccess: () => {
      setFile(undefined);
      setCaption('');
      return queries.invalidateQueries({ queryKey: ['run', run] });
    },
  });
  return (
    <form
      className="form wide"
      onSubmit={(event) => {
        event.preventDefault();
        if (file) add.mutate(file);
      }}
    >
      <DropField
        label="Drop the photo here, or choose it: PNG or JPEG"
        accept="image/png,image/jpeg"
        onFiles={([one]) => setFile(one)}
      />
      {file && (
        <p className="small">
          <bdi>{file.name}</bdi>
        </p>
      )}
      {asked.length > 0 && (
        <Select
          label="Which of those asked for it is"
          value={shows}
          onChange={({ target }) => setShows(target.value)}
          options={photoChoices(asked)}
        />
      )}
      <Field label="What it shows" value={caption} onChange={({ target }) => setCaption(target.value)} />
      <Field label="Camera or telephone" value={device} onChange={({ target }) => setDevice(target.value)} />
      <FormProblem error={add.error} />
      <button
        className="action"
        type="submit"
        disabled={!file || caption.trim() === '' || device.trim() === '' || add.isPending}
      >
        Attach this photo
      </button>
    </form>
  );
}
