import { z } from 'zod';
import { brakingHeat } from '../../physics/braking-heat.js';
import { Amount, Reading } from '../inputs-of-physics.js';
import { defineMethod } from '../method.js';

export const brakingHeatMethod = defineMethod({
  method: 'braking-heat',
  question: 'How much heat does a stop put into a rim, and how warm would it make it with no time to cool?',
  inputs: z.strictObject({
    mass: Amount.describe('kg, all that is slowed'),
    speedFrom: Reading.min(0).describe('m/s'),
    speedTo: Reading.min(0).describe('m/s, not above speedFrom'),
    share: z.number().gt(0).max(1).describe('of the energy that goes into this part, a fraction; 1 for all of it'),
    capacity: Amount.describe('heat capacity of the part, J/K'),
  }),
  result: {
    energy: 'given up by the whole mass, J',
    heat: 'into this part, J',
    rise: 'largest warming possible, K',
  },
  assumptions: [
    'the part warms evenly and loses nothing meanwhile',
    'a comparison of energy: it says nothing of a descent',
  ],
  source: 'E = m (v₀² − v₁²) / 2; rise = heat / (m c)',
  run: (stop) => ({ ...brakingHeat(stop) }),
});
