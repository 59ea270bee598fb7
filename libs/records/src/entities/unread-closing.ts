import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** How an unread file ended: read into a run, or discarded by a second person. */
@Entity()
export class UnreadClosing extends Row {
  @Column('uuid')
  unreadFileId!: string;

  @Column('text')
  outcome!: 'read' | 'discarded';

  @Column('uuid', { nullable: true })
  runId!: string | null;

  @Column('text', { nullable: true })
  reason!: string | null;
}
