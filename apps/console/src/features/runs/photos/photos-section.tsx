import { photosMissing } from '@breakbook/lab';
import { useQuery } from '@tanstack/react-query';
import type { PhotoRecord } from '../../../client/answers.js';
import { fileAddress, photoAddress, photosQuery, thumbnailAddress } from '../../../client/queries.js';
import { moment } from '../../../parts/moment.js';
import { Fold, Section } from '../../../parts/sheet/sheet.js';
import { Who } from '../../../parts/who.js';
import { useMe } from '../../people/me.js';
import type { RunOnSheet } from '../use-run-sheet.js';
import { AddPhoto } from './add-photo.js';
import { AskedPhotosList } from './asked-photos.js';
import './photos-section.css';
import { WithoutPhotos } from './without-photos.js';

/** Photos of the specimen as it was found, beside those that its failure mode asks for; not there where there are none. */
export function PhotosSection({ answer: { run }, record, around }: RunOnSheet) {
  const me = useMe();
  const { data: attached = [] } = useQuery(photosQuery(run.run));
  const photos = attached.filter(({ mediaType }) => mediaType.startsWith('image/'));
  const others = attached.filter(({ mediaType }) => !mediaType.startsWith('image/'));
  const { photosAsked: asked } = record;
  if (attached.length === 0 && asked.length === 0) return null;
  const missing = photosMissing(asked).length > 0;
  const { examination } = run;
  const why = examination?.withoutPhotos;
  const open = run.validity === undefined && me.duties.includes('record');
  return (
    <Section
      question="What does it look like?"
      word="Photos"
      aside="Small copies, made for this page. Open one to see the photo as it came."
    >
      <AskedPhotosList asked={asked} />
      {missing && why !== undefined && <p>Photos that are missing were not taken: {why}</p>}
      {photos.length > 0 && (
        <div className="photos">
          {photos.map(({ number, width, height, recorded, content: { caption, shows, takenBy, takenAt, device } }) => (
            <figure key={number}>
              <a href={photoAddress(number)} target="_blank" rel="noreferrer">
                <img
                  src={thumbnailAddress(number)}
                  alt={caption}
                  width={width}
                  height={height}
                  loading="lazy"
                  onError={({ currentTarget: shown }) => {
                    // Where no small copy can be made, the photo itself.
                    if (!shown.src.endsWith(photoAddress(number))) shown.src = photoAddress(number);
                  }}
                />
              </a>
              <figcaption>
                {shows !== undefined && <strong>{shows}: </strong>}
                {caption}{' '}
                <span className="quiet">
                  <Who people={around.people} person={takenBy} />, {moment(takenAt, around.lab.zone)}, {device}.
                  <Recorded recorded={recorded} />
                </span>
              </figcaption>
            </figure>
          ))}
        </div>
      )}
      {others.length > 0 && <Others files={others} around={around} />}
      {open && (
        <Fold word="Attach a photo, video or PDF">
          <AddPhoto key={attached.length} run={run.run} person={me.person} asked={asked} />
        </Fold>
      )}
      {open && missing && examination && why === undefined && (
        <Fold word="Say why a photo was not taken">
          <WithoutPhotos record={record} examination={examination} />
        </Fold>
      )}
    </Section>
  );
}

/** When the file itself says that it was recorded: a camera's clock may be wrong, and so may a person. */
function Recorded({ recorded }: Pick<PhotoRecord, 'recorded'>) {
  if (!recorded) return null;
  const { local, zone } = recorded;
  const said = zone === undefined ? 'by a clock of no told zone' : zone === 'Z' ? 'UTC' : `UTC${zone}`;
  return ` The file says ${local.replace('T', ', ')}, ${said}.`;
}

/** Videos and documents, to be taken away: the page shows none of them. */
function Others({ files, around }: { files: readonly PhotoRecord[]; around: RunOnSheet['around'] }) {
  return (
    <ul>
      {files.map(
        ({ number, mediaType, bytes, recorded, content: { caption, takenBy, takenAt, device, triggerOffset } }) => (
          <li key={number}>
            <a href={fileAddress(number)} download>
              {mediaType.startsWith('video/') ? 'Video' : 'Document'} {number}
            </a>{' '}
            ({(bytes / 1e6).toFixed(1)} MB): {caption}{' '}
            <span className="quiet">
              <Who people={around.people} person={takenBy} />, {moment(takenAt, around.lab.zone)}, {device}.
              {triggerOffset !== undefined && ` It begins at ${triggerOffset} s of the record.`}
              <Recorded recorded={recorded} />
            </span>
          </li>
        ),
      )}
    </ul>
  );
}
