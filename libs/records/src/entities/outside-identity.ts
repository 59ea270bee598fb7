import { Column, Entity } from 'typeorm';
import { Version } from './row.js';

/** Who a person is at a provider whose word they may sign in by; nobody where issuer and subject are null. */
@Entity()
export class OutsideIdentity extends Version {
  @Column('text', { nullable: true })
  issuer!: string | null;

  @Column('text', { nullable: true })
  subject!: string | null;
}
