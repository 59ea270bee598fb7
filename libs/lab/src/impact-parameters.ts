import { z } from 'zod';
import { quantityOf } from './quantity.js';
import { Fraction } from './text.js';

const within = (kind: Parameters<typeof quantityOf>[0]) =>
  z.strictObject({ from: quantityOf(kind), to: quantityOf(kind) });

/** What a method may ask of rig, striker and specimen before a strike. What it leaves out is not looked at. */
export const ImpactSetUp = z.strictObject({
  /** How far the strike may lie from its point, and be turned about it. */
  strikePoint: z.strictObject({ offset: quantityOf('length'), angle: quantityOf('angle') }).optional(),
  /** Hardness of the pad on the striker, and for how long a reading of it is good. The pad is whole after the run. */
  pad: z.strictObject({ hardness: within('hardness'), goodFor: quantityOf('time') }).optional(),
  /** Of every spoke, before the first strike. */
  spokeTension: within('force').optional(),
  /** Largest run-out before the first strike. */
  runOutAtMost: z.strictObject({ lateral: quantityOf('length'), radial: quantityOf('length') }).optional(),
  /** The striker as weighed may differ by this share from the mass of the method. */
  massBand: Fraction.optional(),
  /** Of the bolts that hold the wheel. */
  boltTorque: within('torque').optional(),
  /** No strike may have come before those of the run. */
  notStruckBefore: z.literal(true).optional(),
});
export type ImpactSetUp = z.infer<typeof ImpactSetUp>;

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
  setUp: ImpactSetUp.optional(),
});
export type ImpactParameters = z.infer<typeof ImpactParameters>;
