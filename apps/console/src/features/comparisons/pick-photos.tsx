import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { photosOfSpecimenQuery } from '../../client/comparison-queries.js';
import { thumbnailAddress } from '../../client/queries.js';
import { sendPhoto } from '../../client/send-photo.js';
import { useSent } from '../../client/use-sent.js';
import { DropField } from '../../parts/drop-field.js';
import { Field, FormProblem } from '../../parts/field.js';
import { Picks } from '../../parts/picks.js';
import { useMe } from '../people/me.js';

interface PickPhotosProps {
  specimen: string;
  /** By the SHA-256 of their bytes. */
  picked: readonly string[];
  onPick: (picked: string[]) => void;
}

/** Photos of a specimen on which an observation rests; a further one is attached to the specimen first. */
export function PickPhotos({ specimen, picked, onPick }: PickPhotosProps) {
  const me = useMe();
  const [shows, setShows] = useState('');
  const [device, setDevice] = useState('');
  const { data = [] } = useQuery({ ...photosOfSpecimenQuery(specimen), enabled: specimen !== '' });
  const photos = data.filter(({ mediaType }) => mediaType.startsWith('image/'));
  const add = useSent({
    send: (file: File) =>
      sendPhoto({ specimen }, file, {
        caption: shows.trim(),
        device: device.trim(),
        takenBy: me.person,
        takenAt: new Date(file.lastModified).toISOString(),
      }),
    renews: ['specimen'],
    onTaken: () => setShows(''),
  });
  return (
    <>
      {photos.length > 0 && (
        <Picks
          legend="Photos it rests on"
          several
          options={photos.map(({ number, sha256, content }) => ({
            value: sha256,
            word: <bdi>{content.caption}</bdi>,
            hint: <img src={thumbnailAddress(number)} alt="" width={96} loading="lazy" />,
          }))}
          picked={picked}
          onPick={onPick}
        />
      )}
      <div className="fields">
        <Field
          label="What a further photo shows"
          hint="Said first; then the photo can be chosen."
          value={shows}
          onChange={({ target }) => setShows(target.value)}
        />
        <Field label="Camera or telephone" value={device} onChange={({ target }) => setDevice(target.value)} />
      </div>
      {shows.trim() !== '' && device.trim() !== '' && (
        <DropField
          label={`Drop a photo of ${specimen} here, or choose it (PNG, JPEG)`}
          accept="image/png,image/jpeg"
          onFiles={([file]) => file && add.mutate(file)}
        />
      )}
      <FormProblem error={add.error} />
    </>
  );
}
