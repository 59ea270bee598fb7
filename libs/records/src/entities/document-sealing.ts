import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** That a document was signed by the lab. */
@Entity()
export class DocumentSealing extends Row {
  @Column('uuid')
  documentId!: string;

  @Column('uuid')
  contentId!: string;

  @Column('uuid')
  signingKeyId!: string;

  /** The unsigned document whose reader authorised this one. */
  @Column('uuid', { nullable: true })
  draftId!: string | null;
}
