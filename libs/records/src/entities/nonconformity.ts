import type { NonconformitySource } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { Numbered } from './row.js';

/** Something that does not meet a requirement. What is said and done about it are its versions. */
@Entity()
export class Nonconformity extends Numbered {
  @Column('text')
  source!: NonconformitySource;

  /** The run whose failed verdict or lab error opened it. */
  @Column('uuid', { nullable: true })
  runId!: string | null;
}
