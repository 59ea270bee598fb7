import { describe, expect, it } from 'vitest';
import { bound, complete, every, judged, survived } from '../fixtures/judged-lot.js';

describe('the lot as a whole', () => {
  it('combines criteria by all and says in one sentence why', () => {
    const mixed = judged(complete, { criteria: [every, bound('normal', 0.99)] });
    expect(mixed.outcome).toBe('does not meet the plan');
    expect(mixed.sentence).toMatch(
      /^Lot L-0031 does not meet plan P-DUNLIN rev\. 1: criterion bound is not met: the lower bound, /,
    );
    expect(judged(complete, { criteria: [every, bound('weibull', 0.5, 0.5)] }).sentence).toBe(
      'Lot L-0031 meets plan P-DUNLIN rev. 1: both criteria are met.',
    );
    expect(judged(complete.slice(1)).sentence).toBe(
      'Lot L-0031 is undecided under plan P-DUNLIN rev. 1: criterion every-rim is not yet decidable: 4 of 5 planned valid runs make the claim.',
    );
  });

  it('describes the claim by mean, scatter and Weibull fit, or says why not', () => {
    const [line] = judged(complete).lines;
    expect(line?.summary).toMatchObject({ n: 5, mean: 1800, min: 1700, max: 1900 });
    expect(line?.weibull).toMatchObject({ n: 5, failures: 5, shapeLimits: [expect.any(Number), expect.any(Number)] });
    const [censored] = judged(complete.map((one) => ({ ...one, examination: survived }))).lines;
    expect(censored?.summary).toMatchObject({ notEvaluated: { because: expect.stringContaining('5 of 5 values') } });
    expect(censored?.weibull).toMatchObject({
      notEvaluated: { because: expect.stringContaining('no specimen broke') },
    });
  });
});
