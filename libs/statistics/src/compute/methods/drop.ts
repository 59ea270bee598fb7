import { z } from 'zod';
import { drop } from '../../physics/drop.js';
import { Amount, Gravity } from '../inputs-of-physics.js';
import { defineMethod } from '../method.js';

export const dropMethod = defineMethod({
  method: 'drop',
  question: 'How fast and with what energy does a mass arrive that falls freely?',
  inputs: z.strictObject({
    mass: Amount.describe('kg, all that falls'),
    height: Amount.describe('m, of the fall'),
    gravity: Gravity,
  }),
  result: { speed: 'at the end of the fall, m/s', energy: 'J' },
  assumptions: ['it falls freely from rest: no friction, no drag'],
  source: 'E = m g h and v = √(2 g h); standard gravity 9.80665 m/s² (ISO 80000-3, NIST SP 811)',
  run: ({ mass, height, gravity }) => ({ ...drop(mass, height, gravity) }),
});
