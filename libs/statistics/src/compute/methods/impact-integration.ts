import { z } from 'zod';
import { integrateImpact } from '../../physics/impact-integration.js';
import { Amount, Gravity, Reading, Times } from '../inputs-of-physics.js';
import { defineMethod } from '../method.js';

export const impactIntegrationMethod = defineMethod({
  method: 'impact-integration',
  question: 'How did a falling mass move while a force acted on it, and how much energy did the part take?',
  inputs: z.strictObject({
    time: Times.describe('s, increasing; the first is the beginning of contact'),
    force: z.array(Reading).describe('N, upward on the mass, one for each time'),
    mass: Amount.describe('kg, all that falls'),
    speed: Reading.describe('m/s, downward positive, at the beginning of contact'),
    gravity: Gravity,
  }),
  result: {
    velocity: 'm/s, downward positive, at each time',
    deflection: 'travel since the beginning of contact, m, at each time',
    energy: 'given to the part so far, J, at each time',
    peakForce: 'N',
    maxDeflection: 'm; at the end of the record where the mass never came to rest',
    timeOfMaxDeflection: 's; left out where the mass never came to rest',
    cameToRest: 'whether the mass came to rest and turned within the record',
    absorbedEnergy: 'still in the part at the end of the record, J',
    rebound: 'speed upward at the end of the record, m/s; negative where it still moves down',
    impulse: 'N·s',
  },
  assumptions: [
    'mass and force sensor move as one; nothing but the part and gravity acts on them',
    'between two samples force and speed go straight',
  ],
  source: 'ASTM D7136/D7136M and ISO 6603-2:2000: speed, deflection and energy by integration of the force',
  run({ gravity, ...strike }) {
    const { velocity, deflection, energy, ...rest } = integrateImpact({
      ...strike,
      ...(gravity === undefined ? {} : { gravity }),
    });
    return {
      velocity: Array.from(velocity),
      deflection: Array.from(deflection),
      energy: Array.from(energy),
      ...rest,
    };
  },
});
