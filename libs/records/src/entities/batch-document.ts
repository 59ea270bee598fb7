import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** A document that was made of a batch, and its place there. */
@Entity()
export class BatchDocument extends Row {
  @Column('uuid')
  batchId!: string;

  /** Counts from 1. */
  @Column('integer')
  position!: number;

  @Column('uuid')
  documentId!: string;
}
