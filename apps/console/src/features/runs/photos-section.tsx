import { useQuery } from '@tanstack/react-query';
import { photoAddress, photosQuery } from '../../client/queries.js';
import { moment } from '../../parts/moment.js';
import { Section } from '../../parts/sheet/sheet.js';
import { Who } from '../../parts/who.js';
import './photos-section.css';
import { type RunOnSheet } from './use-run-sheet.js';

/** Photos of the specimen as it was found; not there where none was taken. */
export function PhotosSection({ answer: { run }, around }: RunOnSheet) {
  const { data: photos = [] } = useQuery(photosQuery(run.run));
  if (photos.length === 0) return null;
  return (
    <Section question="What does it look like?" word="Photos" aside="Kept as they came; open one to see all of it.">
      <div className="photos">
        {photos.map(({ number, width, height, content: { caption, takenBy, takenAt, device } }) => (
          <figure key={number}>
            <a href={photoAddress(number)} target="_blank" rel="noreferrer">
              <img src={photoAddress(number)} alt={caption} width={width} height={height} loading="lazy" />
            </a>
            <figcaption>
              {caption}{' '}
              <span className="quiet">
                <Who people={around.people} person={takenBy} />, {moment(takenAt, around.lab.zone)}, {device}.
              </span>
            </figcaption>
          </figure>
        ))}
      </div>
    </Section>
  );
}
