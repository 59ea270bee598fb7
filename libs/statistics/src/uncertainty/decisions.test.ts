import { describe, expect, it } from 'vitest';
import { seededGenerator } from '../random/generator.js';
import { acceptanceRisks } from './acceptance-risks.js';
import { conformanceProbability } from './conformance-probability.js';
import { expandedUncertainty } from './expanded-uncertainty.js';
import { guardBand } from './guard-band.js';

describe('conformanceProbability', () => {
  it('is even odds at a single limit, and the same on either side of it', () => {
    expect(conformanceProbability(490, 8.6, { lower: 490 }).probability).toBe(0.5);
    expect(conformanceProbability(500, 8.6, { lower: 490 }).probability).toBeCloseTo(
      1 - conformanceProbability(500, 8.6, { upper: 490 }).probability,
      15,
    );
  });

  it('keeps its digits far out, above as below', () => {
    const below = conformanceProbability(-10, 1, { lower: 0, upper: 1 }).probability;
    expect(below).toBeGreaterThan(0);
    expect(conformanceProbability(11, 1, { lower: 0, upper: 1 }).probability).toBe(below);
  });

  it('lets a vague prior say nothing and a sharp one say all', () => {
    const alone = conformanceProbability(500, 8.6, { lower: 490 }).probability;
    expect(conformanceProbability(500, 8.6, { lower: 490 }, { mean: 520, sd: 1e9 }).probability).toBeCloseTo(alone, 9);
    expect(conformanceProbability(500, 8.6, { lower: 490 }, { mean: 520, sd: 1e-9 })).toMatchObject({
      mean: expect.closeTo(520, 9),
      probability: 1,
    });
  });

  it('refuses a tolerance that runs downward', () => {
    expect(() => conformanceProbability(1, 1, { lower: 3, upper: 2 })).toThrow('runs upward; got 3 to 2');
  });
});

describe('guardBand', () => {
  it('puts its limit where the probability is the one asked for', () => {
    for (const side of ['lower', 'upper'] as const)
      for (const probability of [0.3, 0.95, 0.999]) {
        const { acceptanceLimit } = guardBand(100, side, 2, probability);
        expect(conformanceProbability(acceptanceLimit, 2, { [side]: 100 }).probability).toBeCloseTo(probability, 12);
      }
  });
});

describe('acceptanceRisks', () => {
  const prior = { mean: 520, sd: 15 };

  it('shares all items out: accepted is conforming, less the wrongly refused, plus the wrongly accepted', () => {
    for (const u of [1e-6, 0.1, 8.6, 500])
      for (const acceptance of [{ lower: 490 }, { lower: 500 }, { upper: 530 }, { lower: 400, upper: 600 }]) {
        const found = acceptanceRisks(prior, u, { lower: 490, upper: 560 }, acceptance);
        expect(found.conforming - found.producerRisk + found.consumerRisk).toBeCloseTo(found.accepted, 13);
      }
  });

  it('has no risk of either kind left where nothing is uncertain', () => {
    const found = acceptanceRisks(prior, 1e-9, { lower: 490 }, { lower: 490 });
    expect(found.consumerRisk).toBeLessThan(1e-11);
    expect(found.producerRisk).toBeLessThan(1e-11);
  });

  it('trades one risk for the other as the acceptance limit moves inward', () => {
    const [wide, narrow] = [490, 500].map((lower) => acceptanceRisks(prior, 8.6, { lower: 490 }, { lower }));
    if (!wide || !narrow) throw new Error('two plans');
    expect(narrow.consumerRisk).toBeLessThan(wide.consumerRisk);
    expect(narrow.producerRisk).toBeGreaterThan(wide.producerRisk);
  });

  it('keeps its digits where risks are tiny', () => {
    // By symmetry: a tolerance far below and the same far above.
    const below = acceptanceRisks({ mean: 0, sd: 1 }, 1, { lower: -12 }, { lower: -6 });
    const above = acceptanceRisks({ mean: 0, sd: 1 }, 1, { upper: 12 }, { upper: 6 });
    expect(below.consumerRisk).toBeGreaterThan(0);
    expect(Math.abs(above.consumerRisk / below.consumerRisk - 1)).toBeLessThan(1e-12);
  });

  it('is what happens to items drawn and measured', () => {
    const generator = seededGenerator(5);
    const items = 200_000;
    let [consumer, producer] = [0, 0];
    for (let item = 0; item < items; item++) {
      const value = 520 + 15 * generator.normal();
      const measured = value + 8.6 * generator.normal();
      if (value < 490 && measured >= 495) consumer++;
      if (value >= 490 && measured < 495) producer++;
    }
    const { consumerRisk, producerRisk } = acceptanceRisks(prior, 8.6, { lower: 490 }, { lower: 495 });
    expect(Math.abs(consumer / items - consumerRisk)).toBeLessThan(4 * Math.sqrt(consumerRisk / items));
    expect(Math.abs(producer / items - producerRisk)).toBeLessThan(4 * Math.sqrt(producerRisk / items));
  });
});

describe('expandedUncertainty', () => {
  it('says why there is no factor with less than one degree of freedom', () => {
    const found = expandedUncertainty([{ name: 'a', u: 1, degreesOfFreedom: 0.5 }], [], 0.95);
    expect(found.k).toMatchObject({ notEvaluated: { because: expect.stringContaining('0.5 effective degrees') } });
    expect(found.expanded).toEqual(found.k);
  });

  it('neither overflows nor vanishes', () => {
    for (const scale of [1e-90, 1e90]) {
      const sources = ['a', 'b'].map((name) => ({ name, u: scale, degreesOfFreedom: 5 }));
      expect(expandedUncertainty(sources, [], 0.95).effectiveDegreesOfFreedom).toBeCloseTo(10, 9);
    }
  });
});
