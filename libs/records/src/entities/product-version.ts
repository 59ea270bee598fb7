import { Product as ProductContent } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { checkedBy } from './content.js';
import { Version } from './row.js';

/** What a product is, as far as its tests need it. */
@Entity()
export class ProductVersion extends Version {
  @Column('jsonb', { transformer: checkedBy(ProductContent) })
  content!: ProductContent;
}
