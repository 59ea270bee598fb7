import fs from 'node:fs';
import {
  type Criterion,
  isNotEvaluated,
  Limit,
  Method,
  Plan,
  type PlanLine,
  type ShownBy,
  TemplateName,
} from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { planLineProblems } from '../../lots/checks/plan-line.js';
import { planFrom, planTemplates } from '../templates/fill-template.js';
import { planRisks } from './plan-risks.js';

const sample = (folder: string, name: string): unknown =>
  JSON.parse(fs.readFileSync(new URL(`../../../../../sample-runs/${folder}/${name}.json`, import.meta.url), 'utf8'));
const FOLDERS = {
  burst: 'dunlin-42-preproduction',
  'brake heat': 'dunlin-42-heat',
  impact: 'dunlin-42-impact',
} as const;
const sampled = (template: TemplateName) => ({
  plan: Plan.parse(sample(FOLDERS[template], 'plan')),
  methods: Method.array().parse(sample(FOLDERS[template], 'methods')),
  limits: Limit.array().parse(sample(FOLDERS[template], 'limits')),
});

const limit = { limit: 'OCF-W-7.2', revision: 1 };
const burst = sampled('burst');

/** The burst plan with one line of these numbers. */
function risksOf(
  criteria: Criterion[],
  {
    lotSize,
    population = 'process',
    ...line
  }: Partial<PlanLine> & { lotSize?: number; population?: 'process' | 'lot' },
) {
  const [first] = burst.plan.lines as [PlanLine, ...PlanLine[]];
  const plan = Plan.parse({
    ...burst.plan,
    claim: { ...burst.plan.claim, population },
    lines: [{ ...first, ...line, criteria }],
  });
  const [risk] = planRisks({ ...burst, plan, lotSize }).lines;
  if (!risk) throw new Error('no line');
  return risk;
}
function only(criteria: Criterion[], line: Parameters<typeof risksOf>[1]) {
  const [risk] = risksOf(criteria, line).criteria;
  if (!risk || isNotEvaluated(risk)) throw new Error(risk?.notEvaluated.because ?? 'none');
  return risk;
}
const at = (curve: readonly { share: number; chance: number }[], share: number) =>
  curve.find((one) => Math.abs(one.share - share) < 1e-9)?.chance;

describe('planRisks', () => {
  // ISO 2859-1:1999, single plan of n = 50 with Ac = 1 (letter H, AQL 1.0): table 10-H gives 95 % at 0.71 % and 10 % at
  // 7.56 % bad (from memory), so 2 % pass with 0.736 and 8 % with 0.083: binomial, by hand 0.98^50 + 50 x 0.02 x 0.98^49.
  it('has the curve of a single plan by attributes', () => {
    const { curve, keeps } = only([{ kind: 'failures at most', criterion: 'A1', limit, allowed: 1 }], {
      specimens: 50,
    });
    expect(at(curve, 0.02)).toBeCloseTo(0.7358, 4);
    expect(at(curve, 0.08)).toBeCloseTo(0.0827, 4);
    expect(keeps).toBeUndefined();
  });

  // The same plan of a lot of 100 with 2 bad: 1 - C(2,2) C(98,48)/C(100,50) = 1 - 50 x 49 / (100 x 99) = 0.7525.
  it('takes the lot for what it is where the claim is about the lot', () => {
    const { curve } = only([{ kind: 'failures at most', criterion: 'A1', limit, allowed: 1 }], {
      specimens: 50,
      population: 'lot',
      lotSize: 100,
    });
    expect(at(curve, 0.02)).toBeCloseTo(0.752525, 6);
  });

  // Double sampling by hand (Dodge and Romig 1929): none of 3, or one of 3 and none of the next 6: q^3 + 3 p q^8.
  it('has the curve of double sampling', () => {
    const { curve, schedule } = only(
      [
        {
          kind: 'failures at most',
          criterion: 'A1',
          limit,
          allowed: 1,
          looks: [
            { accept: 0, reject: 2 },
            { accept: 1, reject: 2 },
          ],
        },
      ],
      { specimens: 9, stages: [3, 6] },
    );
    expect(at(curve, 0.2)).toBeCloseTo(0.8 ** 3 + 3 * 0.2 * 0.8 ** 8, 12);
    expect(schedule).toEqual({ looks: [3, 9] });
  });

  it('passes a population at the edge of a bound as often as the bound may err, and no more with stages', () => {
    const bound = {
      kind: 'tolerance bound',
      criterion: 'A1',
      limit,
      distribution: 'normal',
      coverage: 0.9,
      confidence: 0.95,
    } as const;
    const single = only([bound], { specimens: 8 });
    expect(single).toMatchObject({ keeps: 0.95, atLimit: { share: 0.1, chance: expect.closeTo(0.05, 6) } });
    const staged = only([bound], { specimens: 10, stages: [5, 5] });
    expect(staged.atLimit?.chance).toBeLessThan(0.05 + 3 * 0.007);
    expect(staged.schedule).toMatchObject({ looks: [5, 10], unadjusted: expect.closeTo(0.915, 1) });
    expect(staged.sentence).toContain('Over its 2 looks');
  });

  // 29 survivors at 90/95 leave 0.9^29 = 0.0471; with raised load the Weibull exponent multiplies n (Nelson 1985).
  it('passes a population at the edge of a demonstration by its survivors', () => {
    const zero = { kind: 'zero failures', criterion: 'A1', limit, reliability: 0.9, confidence: 0.95 } as const;
    expect(only([zero], { specimens: 29 }).atLimit?.chance).toBeCloseTo(0.0471, 4);
    expect(only([zero], { specimens: 18, population: 'lot', lotSize: 40 }).atLimit?.chance).toBeCloseTo(0.04, 3);
    const raised = { loadRatio: 1.15, shape: 8, shapeSource: 'Invented.', lowerShapes: [6], modes: ['BF-FLG'] };
    expect(only([{ ...zero, raised }], { specimens: 10 }).atLimit?.chance).toBeCloseTo(0.9 ** (10 * 1.15 ** 8), 12);
    expect(risksOf([zero], { specimens: 12 }).criteria[0]).toMatchObject({
      notEvaluated: { because: expect.stringContaining('29 are needed') },
    });
    expect(risksOf([zero], { specimens: 18, population: 'lot' }).criteria[0]).toMatchObject({
      notEvaluated: { because: expect.stringContaining('how many units the lot has') },
    });
  });

  it('has no curve, and says so, for levels chosen beforehand; for a mean it has the chance alone', () => {
    const response = {
      kind: 'response energy',
      criterion: 'A1',
      limit,
      share: 0.5,
      confidence: 0.9,
      levels: [30, 40, 50],
    } as const;
    expect(risksOf([{ ...response, levels: [...response.levels] }], { specimens: 12 })).toMatchObject({
      criteria: [{ notEvaluated: { because: expect.stringContaining('where the levels lie') } }],
      together: { notEvaluated: { because: expect.any(String) } },
    });
    const { keeps, sentence } = only([{ kind: 'mean', criterion: 'A1', limit, confidence: 0.95 }], { specimens: 8 });
    expect(keeps).toBe(0.95);
    expect(sentence).toContain('5 %');
  });

  it('puts criteria on one limit between the bounds of Frechet, and one event in two words once', () => {
    const every = { kind: 'every specimen', criterion: 'A1', limit } as const;
    const zero = { kind: 'zero failures', criterion: 'A2', limit, reliability: 0.6, confidence: 0.9 } as const;
    const bound = {
      kind: 'tolerance bound',
      criterion: 'A3',
      limit,
      distribution: 'normal',
      coverage: 0.6,
      confidence: 0.9,
    } as const;
    const same = risksOf([every, zero], { specimens: 6 }).together;
    const mixed = risksOf([every, bound], { specimens: 6 });
    if (isNotEvaluated(same) || isNotEvaluated(mixed.together)) throw new Error('no curve');
    const tenth = same.curve.find(({ share }) => share === 0.1);
    expect(tenth?.atLeast).toBeCloseTo(0.9 ** 6, 12);
    expect(tenth?.atMost).toBeCloseTo(0.9 ** 6, 12);
    const chances = mixed.criteria.map((one) => (isNotEvaluated(one) ? Number.NaN : (at(one.curve, 0.1) as number)));
    expect(mixed.together.curve.find(({ share }) => share === 0.1)).toEqual({
      share: 0.1,
      atLeast: Math.max(0, (chances[0] as number) + (chances[1] as number) - 1),
      atMost: Math.min(...chances),
    });
  });
});

describe('templates', () => {
  const PLACES: Record<TemplateName, { method: string; methodRevision: number; limits: Record<string, string> }> = {
    burst: { method: 'BURST-CLAMP', methodRevision: 2, limits: { strength: 'OCF-W-7.2', own: 'SW-RIM-BURST' } },
    'brake heat': { method: 'HEAT-DRAG', methodRevision: 1, limits: { heat: 'OCF-W-8.1', own: 'SW-RIM-HEAT' } },
    impact: {
      method: 'DROP-40',
      methodRevision: 1,
      limits: { strike: 'OCF-W-9.1', lateral: 'OCF-W-9.2', radial: 'OCF-W-9.3' },
    },
  };
  const filled = (template: TemplateName, more = {}) => {
    const { limits } = sampled(template);
    const { method, methodRevision, limits: places } = PLACES[template];
    return planFrom(template, {
      plan: 'DRAFT-1',
      product: 'dunlin-42',
      approvedBy: 't-ibanez',
      approvedOn: '2026-10-26',
      use: 'touring events',
      method,
      methodRevision,
      limits: Object.entries(places).map(([place, key]) => ({
        place,
        limit: key,
        revision: limits.find((one) => one.limit === key)?.revision ?? 0,
      })),
      ...more,
    });
  };

  it.each(TemplateName.options)('%s passes the checks of plans when filled, and says what it risks', (template) => {
    const { limits, methods } = sampled(template);
    const plan = filled(template);
    const problems = plan.lines.flatMap((line) =>
      planLineProblems(plan, line, '/lines/0', {
        limits,
        methodOf: (ref) => methods.find((one) => one.method === ref.method && one.revision === ref.methodRevision),
        limitOf: (ref) => limits.find((one) => one.limit === ref.limit && one.revision === ref.revision),
        placeOf: (_, named) => named,
      }),
    );
    expect(problems).toEqual([]);
    for (const { criteria } of planRisks({ plan, methods, limits }).lines)
      for (const risk of criteria) expect(isNotEvaluated(risk)).toBe(false);
  });

  it('asks for as many specimens as a larger claim needs', () => {
    expect(filled('brake heat').lines[0]?.specimens).toBe(5);
    expect(filled('brake heat', { coverage: 0.9, confidence: 0.95 }).lines[0]?.specimens).toBe(29);
  });

  const RAISED = { loadRatio: 1.2, shape: 8, shapeSource: 'earlier lots', lowerShapes: [5], modes: ['BF-FLG'] };
  it.each<[string, ShownBy, Partial<Plan['lines'][number]>, string]>([
    ['a bound', { kind: 'tolerance bound', distribution: 'lognormal' }, { specimens: 8 }, 'at least 90 % hold'],
    [
      'a staged bound',
      { kind: 'tolerance bound', distribution: 'normal', stages: [4, 6] },
      { specimens: 10, stages: [4, 6] },
      'at least 90 % hold',
    ],
    // 29 at the limit (Clopper and Pearson 1934); 0.9 ^ (1.2 ^ 8) = 0.6357 at the raised load: ln 0.05 / ln 0.6357 = 6.6.
    ['no failures above the limit', { kind: 'zero failures', raised: RAISED }, { specimens: 8 }, 'at least 90 % hold'],
    ['no failures', { kind: 'zero failures' }, { specimens: 29 }, 'at least 90 % hold'],
    ['a count', { kind: 'failures at most', allowed: 1 }, { specimens: 8 }, 'at least 7 of the 8 tested hold'],
    ['a staircase', { kind: 'response energy', step: 100 }, { specimens: 8 }, 'at least half hold'],
  ])('is shown by %s where that was chosen', (_, shownBy, line, said) => {
    const { claim, lines } = filled('burst', { shownBy, coverage: 0.9, confidence: 0.95 });
    expect(lines[0]).toMatchObject(line);
    expect(claim.statement).toContain(said);
    const kinds = lines[0]?.criteria.map(({ kind }) => kind) ?? [];
    expect(kinds.at(-1)).toBe(shownBy.kind);
    expect(kinds.includes('every specimen')).toBe(['tolerance bound', 'zero failures'].includes(shownBy.kind));
  });

  it('speaks of the units of a lot where that was asked', () => {
    const { claim } = filled('impact', { population: 'lot', shownBy: { kind: 'zero failures' } });
    expect(claim.population).toBe('lot');
    expect(claim.statement).toMatch(/^Wheels of this lot: at least 60 %/);
  });

  it('refuses numbers that do not fit each other, as the proposal would', () => {
    const shownBy: ShownBy = { kind: 'tolerance bound', distribution: 'normal', stages: [4, 6] };
    expect(() => filled('burst', { shownBy, specimens: 9 })).toThrow('adds up to 10 specimens');
  });

  it('names the place that is missing, and one it does not know', () => {
    expect(() => filled('burst', { limits: [] })).toThrow('at "strength"');
    expect(() =>
      filled('impact', {
        limits: [
          { place: 'strike', ...limit },
          { place: 'axle', ...limit },
        ],
      }),
    ).toThrow('lateral, radial');
  });

  it('lists what each asks for', () => {
    expect(planTemplates().map(({ template }) => template)).toEqual(TemplateName.options);
  });
});
