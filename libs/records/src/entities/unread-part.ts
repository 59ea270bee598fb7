import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** One part of an unread file, under the name it was sent by. */
@Entity()
export class UnreadPart extends Row {
  @Column('uuid')
  unreadFileId!: string;

  @Column('integer')
  position!: number;

  @Column('text')
  name!: string;

  @Column('uuid')
  rawId!: string;
}
