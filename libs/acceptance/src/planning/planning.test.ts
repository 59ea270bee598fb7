import { type DesignFound, type DesignName, DesignsAsked, isNotEvaluated, schemaProblems } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { boundDesign } from './designs/bound-designs.js';
import { failuresDesign, zeroFailureDesign } from './designs/count-designs.js';
import { raisedDesign } from './designs/raised-design.js';
import { stagedDesign } from './designs/staged-design.js';
import { staircaseDesign } from './designs/staircase-design.js';
import { planDesigns } from './plan-designs.js';
import { type Drawn, type DrawnOrNot, type Setting, settingOf } from './setting.js';
import { whatCanShow } from './what-can-show.js';

const asked: DesignsAsked = {
  limit: { value: 1500, unit: 'kPa' },
  coverage: 0.9,
  confidence: 0.95,
  guess: { mean: 1950, cv: 0.06 },
};
const raised = { loadRatio: 1.15, shape: 8, shapeSource: 'Invented: the lowest of six lots.' };

const DRAW: Record<DesignName, (setting: Setting) => DrawnOrNot> = {
  'zero failures': zeroFailureDesign,
  'failures at most': failuresDesign,
  'zero failures, raised load': raisedDesign,
  'normal bound': (setting) => boundDesign(setting, 'normal'),
  'lognormal bound': (setting) => boundDesign(setting, 'lognormal'),
  'Weibull bound': (setting) => boundDesign(setting, 'weibull'),
  'staged bound': stagedDesign,
  staircase: staircaseDesign,
};
const drawn = (name: DesignName, more: Partial<DesignsAsked> = {}) => DRAW[name](settingOf({ ...asked, ...more }));
const whyNot = (name: DesignName, more: Partial<DesignsAsked> = {}) => {
  const found = drawn(name, more);
  return isNotEvaluated(found) ? found.notEvaluated.because : 'it was had';
};
function designsOf(more: Partial<DesignsAsked> = {}): (name: DesignName) => Drawn {
  return (name) => {
    const found = drawn(name, more);
    if (isNotEvaluated(found)) throw new Error(`${name}: ${found.notEvaluated.because}`);
    return found;
  };
}

describe('planDesigns', () => {
  // The whole answer is reckoned once; a staged Weibull bound takes seconds, and is the same code.
  const everything = {
    raised,
    distribution: 'normal',
    cost: { perSpecimen: 180, currency: 'EUR', rigHoursPerRun: 2 },
  } as const;
  const { designs } = planDesigns({ ...asked, ...everything });
  const of = (name: DesignName): DesignFound => {
    const found = designs.find(({ design }) => design === name);
    if (!found || isNotEvaluated(found)) throw new Error(`${name}: ${found?.notEvaluated.because ?? 'is not there'}`);
    return found;
  };

  // 29 for 90/95 stands in every handbook (Clopper and Pearson 1934); 18 of 40 by the hypergeometric distribution, by hand:
  // 5 bad of 40 escape 18 drawn with C(35,18)/C(40,18) = 0.0400, and 17 with 0.0511. 46 for one failure: 0.9^46 + 46 x 0.1 x
  // 0.9^45 = 0.0480, and 45 gives 0.0524.
  it('needs 29 of a process, 18 of a lot of 40, and 46 where one may fail', () => {
    expect(of('zero failures')).toMatchObject({ n: 29, population: 'process', allowed: 0 });
    const lot = designsOf({ lotSize: 40 })('zero failures');
    expect(lot).toMatchObject({ n: 18, population: 'lot' });
    expect(lot.bad).toEqual({ share: 0.125, chance: expect.closeTo(0.04, 3) });
    expect(of('failures at most')).toMatchObject({ n: 46, allowed: 1 });
    expect(of('failures at most').bad.chance).toBeCloseTo(0.048, 4);
  });

  // Nelson (1985), J. Qual. Technol. 17, 140-146: n = ln(1 - C) / (r^b ln R) = 2.9957 / (3.0590 x 0.10536) = 9.295, so 10;
  // at shape 6 the ten then show 0.05^(1/10 / 1.15^6) = exp(-0.29957 x 0.43233) = 0.8785.
  it('needs 10 at 1.15 times the limit for shape 8, and says what a lower shape would show', () => {
    const design = of('zero failures, raised load');
    expect(design.n).toBe(10);
    expect(design.lowerShapes?.[0]).toEqual({ shape: 6, reliability: expect.closeTo(0.8785, 4) });
    expect(design.sentence).toContain('87.9 % at shape 6');
  });

  // Owen (1963), Sandia SCR-607: k for 90/95 is 2.355 at n = 10, 2.582 at 8, 3.407 at 5 (from memory).
  it('bounds by the tolerance factor, which accepts a population at the limit as often as it says', () => {
    const design = designsOf({ minimumSpecimens: 10, guess: { mean: 2100, cv: 0.06 } })('normal bound');
    expect(design).toMatchObject({ n: 10, k: expect.closeTo(2.355, 3) });
    expect(design.curve.find(({ share }) => share === 0.1)?.chance).toBeCloseTo(0.05, 6);
  });

  it.each(['normal bound', 'lognormal bound', 'Weibull bound'] as const)('%s: a good lot passes as asked', (name) => {
    const design = of(name);
    expect(design.good.chance).toBeGreaterThanOrEqual(0.8 - 1e-9);
    expect(design.bad.chance).toBeLessThan(0.05 + 4 * (design.simulation?.error ?? 1e-9));
  });

  it('keeps the confidence of a schedule, and breaks fewer of a good lot', () => {
    const design = of('staged bound');
    expect(design).toMatchObject({ n: 10, stages: [5, 5] });
    expect(design.perStageConfidence).toBeGreaterThan(0.95);
    expect(Math.abs(design.keeps - 0.95)).toBeLessThan(0.008);
    expect(design.bad.chance).toBeLessThan(0.05 + 4 * 0.007);
    expect(design.expected?.good).toBeLessThan(design.expected?.bad as number);
  });

  it('says of a staircase that it is about the median', () => {
    const design = of('staircase');
    expect(design.bad.share).toBe(0.5);
    expect(design.keeps + 3 * (design.simulation?.error ?? 0)).toBeGreaterThanOrEqual(0.95);
    expect(design.sentence).toContain('half of the process');
  });

  it('has for every design a falling curve, a cost and a sentence', () => {
    for (const design of designs) {
      if (isNotEvaluated(design)) throw new Error(design.notEvaluated.because);
      design.curve.slice(1).forEach(({ chance, share }, index) => {
        expect(chance, `${design.design} at ${share}`).toBeLessThanOrEqual((design.curve[index]?.chance ?? 1) + 0.005);
      });
      expect(design.cost?.rigHours).toBeCloseTo(2 * (design.expected?.good ?? design.n), 9);
      expect(design.sentence).toMatch(/^[A-Z].*\.$/);
    }
  });

  it.each([
    ['zero failures, raised load', {}, 'none was named'],
    ['zero failures', { lotSize: 10, coverage: 0.9, confidence: 0.95, minimumSpecimens: 12 }, 'the lot has 10'],
    ['failures at most', { guess: { mean: 1600, cv: 0.1 } }, 'not even with 20 failures'],
    ['normal bound', { guess: { mean: 1700, cv: 0.1 } }, 'lies below the limit'],
    ['normal bound', { guess: { mean: 1700, cv: 0.09 } }, 'more than any lab breaks'],
    ['Weibull bound', { guess: { mean: 1900, cv: 0.07 }, lotSize: 8 }, 'the lot has 8'],
    ['staged bound', { stages: [3, 6] }, 'no bound on fewer than 5'],
    ['staged bound', { lotSize: 8 }, 'the lot has 8'],
    ['staircase', { guess: { mean: 1400, cv: 0.1 } }, 'the median expected'],
    ['staircase', { lotSize: 8 }, 'some 10 specimens'],
  ] as [DesignName, Partial<DesignsAsked>, string][])('says why %s cannot be had: %o', (name, more, because) => {
    expect(whyNot(name, more)).toContain(because);
  });

  it('takes mean and scatter from earlier lots, and refuses lots that say nothing of scatter', () => {
    const { guess: _, ...rest } = asked;
    const { guess } = settingOf({
      ...rest,
      earlier: [
        [1900, 2000],
        [1800, 1900, 2000],
      ],
    });
    // Mean 1 920; sum of squares 400 + 6400 + 14400 + 400 + 6400 = 28 000 over 4.
    expect(guess).toEqual({ mean: 1920, cv: expect.closeTo(Math.sqrt(7000) / 1920, 12), from: expect.any(String) });
    expect(() => settingOf({ ...rest, earlier: [[1900, 1900]] })).toThrow('nothing of scatter');
  });
});

describe('whatCanShow', () => {
  const answer = (question: RegExp, more = {}) => {
    const { answers } = whatCanShow({ n: 5, coverage: 0.9, confidence: 0.95, ...more });
    const found = answers.find((one) => question.test(one.question));
    if (!found) throw new Error('not asked');
    return found;
  };

  // 0.05^(1/5) = 0.5493; 1 - 0.9^5 = 0.4095; with one failure of 5, the lower limit 0.3426 (Clopper and Pearson).
  it('says what five survivors show', () => {
    expect(answer(/none fails/)).toMatchObject({ numbers: { reliability: expect.closeTo(0.5493, 4) } });
    expect(answer(/if one fails/)).toMatchObject({ numbers: { reliability: expect.closeTo(0.3426, 4) } });
    expect(answer(/How sure/)).toMatchObject({ numbers: { 'confidence reached': expect.closeTo(0.40951, 6) } });
  });

  it('knows that eighteen of a lot of forty are enough, and 29 of a process', () => {
    expect(answer(/How sure/, { n: 18, lotSize: 40 })).toMatchObject({
      answer: expect.not.stringContaining('less than'),
    });
    expect(answer(/How sure/, { n: 17, lotSize: 40 })).toMatchObject({ answer: expect.stringContaining('less than') });
    expect(answer(/How sure/, { n: 29 })).toMatchObject({ answer: expect.not.stringContaining('less than') });
    expect(answer(/How sure/, { n: 50, lotSize: 40 })).toHaveProperty('notEvaluated');
  });

  // The design for that very margin needs the same five specimens: the reverse undoes the question.
  it.each(['normal', 'lognormal', 'Weibull'])(
    'gives the margin at which a %s bound from five clears the limit',
    (name) => {
      const found = answer(new RegExp(`mean lie for a ${name} bound`), { cv: 0.06, meanOverLimit: 1.25 });
      if (isNotEvaluated(found)) throw new Error(found.notEvaluated.because);
      const margin = found.numbers['mean over limit'] as number;
      const of = designsOf({ minimumSpecimens: 2, guess: { mean: 1500 * margin * 1.004, cv: 0.06 } });
      expect(of(`${name} bound` as DesignName).n).toBe(5);
      if (name === 'Weibull') return;
      const short = designsOf({ minimumSpecimens: 2, guess: { mean: 1500 * margin * 0.99, cv: 0.06 } });
      expect(short(`${name} bound` as DesignName).n).toBe(6);
    },
  );

  it('asks for a shape before it speaks of a raised load', () => {
    expect(answer(/To what load/)).toHaveProperty('notEvaluated');
    // (ln 0.5493 / ln 0.9)^(1/8) = 5.6866^(1/8) = 1.2427.
    expect(answer(/To what load/, { shape: 8 })).toMatchObject({
      numbers: { 'load ratio': expect.closeTo(1.2427, 4) },
    });
  });
});

describe('the question', () => {
  it('teaches whoever writes percent, or gives no guess', () => {
    const said = (more: object) => {
      const body = { ...asked, ...more };
      const parsed = DesignsAsked.safeParse(body);
      return parsed.success
        ? ''
        : schemaProblems(parsed.error, body)
            .map(({ detail }) => detail)
            .join(' ');
    };
    expect(said({ confidence: 95 })).toContain('write 0.95 for 95 %');
    expect(said({ guess: { mean: 1900, cv: 6 } })).toContain('write 0.06 for 6 %');
    expect(said({ guess: undefined })).toContain('guess');
    expect(said({ limit: { value: 1500 } })).toContain('/limit/unit');
  });
});
