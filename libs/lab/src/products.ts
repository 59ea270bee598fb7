import { z } from 'zod';
import { GlassTransition } from './heat-parameters.js';
import { quantityOf } from './quantity.js';
import { Key, Line, Paragraph } from './text.js';

export const Product = z.strictObject({
  product: Key,
  name: Line,
  description: Paragraph,
  beadStyle: z.enum(['hooked', 'hookless']),
  brakeKind: z.enum(['rim', 'disc']),
  /** The pressure marked on the rim, gauge. */
  markedMaximum: quantityOf('pressure'),
  innerWidth: quantityOf('length').optional(),
  /** Of the resin under the brake track. */
  glassTransition: GlassTransition.optional(),
});
export type Product = z.infer<typeof Product>;
