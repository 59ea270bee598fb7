import { z } from 'zod';

/** What a person may do. Duties open doors; forbidden pairs close them again on the same thing. */
export const Duty = z.enum([
  'define',
  'draw',
  'record',
  'calibrate',
  'review',
  'decide',
  'issue',
  'trace',
  'compare',
  'audit',
  'administer',
  'send',
]);
export type Duty = z.infer<typeof Duty>;
