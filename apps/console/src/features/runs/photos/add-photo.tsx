import { type PhotosOfThing, photosMissing } from '@breakbook/lab';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { seatTaken } from '../../../client/queries.js';
import { isSignedOut } from '../../../client/read.js';
import { sendPhoto } from '../../../client/send-photo.js';
import { DropField } from '../../../parts/drop-field.js';
import { Field, FormProblem, Select } from '../../../parts/field.js';
import { photoChoices } from './asked-photos.js';

const TYPES = 'image/png,image/jpeg,video/mp4,video/quicktime,application/pdf';
/** Seconds as they are taken: no exponent, a point, at most a day. */
const SECONDS = /^-?\d{1,5}(\.\d{1,6})?$/;

/** Attaches one more photo, video or document to a run, saying what it shows. */
export function AddPhoto({ run, person, asked }: { run: string; person: string; asked: readonly PhotosOfThing[] }) {
  const queries = useQueryClient();
  const [file, setFile] = useState<File>();
  const [shows, setShows] = useState(photosMissing(asked)[0]?.of ?? '');
  const [caption, setCaption] = useState('');
  const [device, setDevice] = useState('');
  const [offset, setOffset] = useState('');
  const isVideo = file?.type.startsWith('video/') ?? false;
  const isPhoto = file?.type.startsWith('image/') ?? true;
  const fits = !isVideo || offset.trim() === '' || SECONDS.test(offset.trim());
  const add = useMutation({
    mutationFn: (chosen: File) =>
      sendPhoto({ run }, chosen, {
        caption: caption.trim(),
        ...(shows === '' || !isPhoto ? {} : { shows }),
        ...(isVideo && offset.trim() !== '' ? { triggerOffset: Number(offset.trim()) } : {}),
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
      setOffset('');
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
        label="Drop it here, or choose it: photo (PNG, JPEG), video (MP4, MOV) or PDF"
        accept={TYPES}
        onFiles={([one]) => setFile(one)}
      />
      {file && (
        <p className="small">
          <bdi>{file.name}</bdi>
        </p>
      )}
      {asked.length > 0 && isPhoto && (
        <Select
          label="Which of those asked for it is"
          value={shows}
          onChange={({ target }) => setShows(target.value)}
          options={photoChoices(asked)}
        />
      )}
      <Field label="What it shows" value={caption} onChange={({ target }) => setCaption(target.value)} />
      <Field label="Camera or telephone" value={device} onChange={({ target }) => setDevice(target.value)} />
      {isVideo && (
        <Field
          label="Seconds on the clock of the record as the video begins, where they are known"
          value={offset}
          onChange={({ target }) => setOffset(target.value)}
          inputMode="decimal"
          hint={fits ? undefined : 'A number of seconds, such as -1.25.'}
        />
      )}
      <FormProblem error={add.error} />
      <button
        className="action"
        type="submit"
        disabled={!file || !fits || caption.trim() === '' || device.trim() === '' || add.isPending}
      >
        Attach this {isVideo ? 'video' : isPhoto ? 'photo' : 'document'}
      </button>
    </form>
  );
}
