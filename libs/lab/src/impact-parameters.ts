import { z } from 'zod';
import { quantityOf } from './quantity.js';
import { Fraction } from './text.js';

/** How an impact record is read. Shares are fractions of the value they belong to. */
export const ImpactParameters = z.strictObject({
  /** One strike a specimen, several points of one wheel, or a rising energy at one point. */
  series: z.enum(['single strike', 'several points', 'rising energy']),
  /** Mass of striker and carriage together, weighed. */
  mass: quantityOf('mass'),
  /** What each strike aims at, where its passage names no target of its own. */
  targetEnergy: quantityOf('energy'),
  energyBand: Fraction,
  /** Distance between the two edges of the speed gate. */
  gateDistance: quantityOf('length'),
  /** From the lower edge of the gate down to the surface struck; left out where contact begins as it passes the edge. */
  gateAboveContact: quantityOf('length').optional(),
  /** Local gravity. */
  gravity: quantityOf('acceleration'),
  /** Record before contact from which the force zero is taken. */
  baseline: quantityOf('time'),
  /** Contact begins where the force first exceeds this share of its peak. */
  contactShare: Fraction,
  /** Cut-off of the declared zero-phase four-pole low-pass; the unfiltered peak is reported beside it. */
  lowPass: quantityOf('frequency'),
  /** A first fall by this share of the force marks the onset of damage. */
  onsetFall: Fraction,
  /** Least share of the free-fall speed that the guided striker must reach. */
  guideEfficiency: Fraction,
  /** Speeds before and after, and the force between, may disagree by this share of the momentum exchanged. */
  momentumShare: Fraction,
  /** A second pulse within this time after the first is a second strike. */
  secondStrike: quantityOf('time'),
  /** Largest share of full scale that the force may use. */
  forceShareOfFullScale: Fraction,
});
export type ImpactParameters = z.infer<typeof ImpactParameters>;
