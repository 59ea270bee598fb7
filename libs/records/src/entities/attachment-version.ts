import { Photo } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { checkedBy } from './content.js';
import { Version } from './row.js';

/** What a photo shows, and who took it when with what. */
@Entity()
export class AttachmentVersion extends Version {
  @Column('uuid')
  takenById!: string;

  @Column('jsonb', { transformer: checkedBy(Photo) })
  content!: Photo;
}
