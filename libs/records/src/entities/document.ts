import { Column, Entity } from 'typeorm';
import { computed } from './content.js';
import { Numbered } from './row.js';

/** A paper as it was issued: its bytes, and the content they were laid out from. */
@Entity()
export class Document extends Numbered {
  @Column('text')
  kind!: string;

  @Column('uuid', { nullable: true })
  evaluationId!: string | null;

  @Column('uuid')
  rawId!: string;

  @Column('text')
  software!: string;

  @Column('jsonb', { transformer: computed })
  content!: unknown;
}
