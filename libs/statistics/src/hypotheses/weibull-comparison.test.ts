import { describe, expect, it } from 'vitest';
import { seededGenerator } from '../random/generator.js';
import { weibullComparison } from './weibull-comparison.js';

const A = { exact: [201, 214, 220, 233, 247], atLeast: [250, 250] };
const B = { exact: [188, 196, 207, 219], between: [[200, 225]] as [number, number][] };

function compared(a: Parameters<typeof weibullComparison>[0], b: Parameters<typeof weibullComparison>[0]) {
  const found = weibullComparison(a, b);
  if ('notEvaluated' in found) throw new Error(found.notEvaluated.because);
  return found;
}

describe('weibullComparison', () => {
  it('splits the gain of separate fits into that of shape and that of scale', () => {
    const { equalShape, equalScaleGivenShape, equalBoth } = compared(A, B);
    expect(equalShape.statistic + equalScaleGivenShape.statistic).toBeCloseTo(equalBoth.statistic, 9);
  });

  it('sees no difference between a sample and itself', () => {
    expect(compared(A, A)).toMatchObject({
      equalShape: { statistic: expect.closeTo(0, 9), p: expect.closeTo(1, 4) },
      equalScaleGivenShape: { statistic: expect.closeTo(0, 9) },
    });
  });

  it('finds one shape in samples that differ by a factor alone', () => {
    const found = compared({ exact: [201, 214, 220, 233, 247] }, { exact: [402, 428, 440, 466, 494] });
    expect(found.commonShape.shape).toBeCloseTo(found.separate[0].shape, 7);
    expect(found.commonShape.scales[1] / found.commonShape.scales[0]).toBeCloseTo(2, 9);
    expect(found.equalShape.statistic).toBeCloseTo(0, 9);
  });

  it('knows no unit', () => {
    const inPsi = (values: number[]) => values.map((value) => value / 6.894757293168361);
    const kPa = compared({ exact: A.exact }, { exact: B.exact });
    const psi = compared({ exact: inPsi(A.exact) }, { exact: inPsi(B.exact) });
    expect(psi.equalBoth.p).toBeCloseTo(kPa.equalBoth.p, 9);
  });

  it('is too bold in small samples, as its page says: 7 % at 10 specimens each where 5 % is asked', () => {
    const generator = seededGenerator(3);
    const sample = () => ({ exact: Array.from({ length: 10 }, () => generator.weibull({ shape: 10, scale: 100 })) });
    const pairs = 1500;
    let called = 0;
    for (let pair = 0; pair < pairs; pair++) if (compared(sample(), sample()).equalBoth.p <= 0.05) called++;
    expect(called / pairs).toBeGreaterThan(0.055);
    expect(called / pairs).toBeLessThan(0.09);
  });

  it('says so where the scatter left open is wider than numbers', () => {
    const found = weibullComparison(
      { atLeast: [40], atMost: [1, 1e9] },
      { atLeast: [1, 40, 1e9, 41.138036988690565, 49.58106136022399, 47.36831111974112], atMost: [1e-9, 1e9, 40, 1e9] },
    );
    expect(found).toMatchObject({ notEvaluated: { because: expect.stringContaining('no number holds the scale') } });
  });

  it('says which sample has no fit', () => {
    expect(weibullComparison(A, { atLeast: [250, 260] })).toMatchObject({
      notEvaluated: { because: expect.stringContaining('sample b has no fit of its own: no specimen broke') },
    });
  });
});
