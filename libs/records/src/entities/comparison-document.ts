import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** Which conclusion of a comparison a document reports. */
@Entity()
export class ComparisonDocument extends Row {
  @Column('uuid')
  documentId!: string;

  @Column('uuid')
  conclusionId!: string;
}
