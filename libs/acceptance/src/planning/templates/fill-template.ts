import {
  type Criterion,
  isNotEvaluated,
  type LimitRef,
  Plan,
  type PlanTemplate,
  type Problem,
  Refusal,
  shown,
  type TemplateFilling,
  type TemplateName,
} from '@breakbook/lab';
import { zeroFailureSize } from '@breakbook/statistics';
import { percent } from '../../words/index.js';
import { DRAFTS, type Draft, type Place } from './templates.js';

/** Every template, with what it asks for. */
export function planTemplates(): PlanTemplate[] {
  return Object.values(DRAFTS).map(
    ({ template, title, about, characteristic, specimens, coverage, confidence, places }) => ({
      template,
      title,
      about,
      characteristic,
      specimens,
      coverage,
      confidence,
      limits: places.map(({ criteria: _criteria, ...place }) => ({ ...place })),
      claims: places.flatMap(({ place, criteria }) => criteria.map((kind) => `${kind}: limit "${place}"`)),
    }),
  );
}

/**
 * A plan from a template and what fills it. Where no number of specimens is given, and the claim needs more than the
 * template proposes, it asks for as many as the claim needs. The plan is a draft: it is proposed and approved as any other.
 */
export function planFrom(template: TemplateName, filling: TemplateFilling): Plan {
  const draft = DRAFTS[template];
  const problems = fillingProblems(draft, filling);
  if (problems.length > 0) throw new Refusal(problems);
  const { coverage = draft.coverage, confidence = draft.confidence } = filling;
  const filled = draft.places.flatMap((place) => {
    const chosen = filling.limits.find((one) => one.place === place.place);
    return chosen ? [{ place, limit: { limit: chosen.limit, revision: chosen.revision } }] : [];
  });
  const criteria = filled.flatMap(({ place, limit }) => place.criteria.map((kind) => ({ kind, limit })));
  return Plan.parse({
    plan: filling.plan,
    revision: 1,
    title: draft.title,
    product: filling.product,
    approvedBy: filling.approvedBy,
    approvedOn: filling.approvedOn,
    claim: {
      statement: draft.statement(percent(coverage), percent(confidence)),
      use: filling.use,
      population: 'process',
      modeSet: draft.modeSet,
      censoring: draft.censoring,
      pooling: 'none',
    },
    lines: [
      {
        line: 'A',
        title: draft.lineTitle,
        method: filling.method,
        methodRevision: filling.methodRevision,
        specimens: filling.specimens ?? specimensFor(draft, coverage, confidence),
        limits: filled.map(({ limit }) => limit),
        criteria: criteria.map((one, index) => criterionOf(one, `A${index + 1}`, { draft, coverage, confidence })),
        characteristic: draft.characteristic,
      },
    ],
  } satisfies Plan);
}

function criterionOf(
  { kind, limit }: { kind: Place['criteria'][number]; limit: LimitRef },
  criterion: string,
  { draft, coverage, confidence }: { draft: Draft; coverage: number; confidence: number },
): Criterion {
  switch (kind) {
    case 'every specimen':
      return { kind, criterion, limit };
    case 'tolerance bound':
      return { kind, criterion, limit, distribution: draft.distribution ?? 'weibull', coverage, confidence };
    case 'zero failures':
      return { kind, criterion, limit, reliability: coverage, confidence };
  }
}

function specimensFor({ places, specimens }: Draft, coverage: number, confidence: number): number {
  if (!places.some(({ criteria }) => criteria.includes('zero failures'))) return specimens;
  const size = zeroFailureSize({ reliability: coverage, confidence });
  return isNotEvaluated(size) ? specimens : Math.max(specimens, size.n);
}

function fillingProblems({ template, places }: Draft, { limits }: TemplateFilling): Problem[] {
  const known = places.map(({ place }) => place);
  const missing = places.flatMap(({ place, about, needed }): Problem[] =>
    needed && !limits.some((one) => one.place === place)
      ? [
          {
            code: 'body.missing-field',
            pointer: '/limits',
            detail: `/limits: template "${template}" needs a limit at "${place}". ${about}.`,
            expected: `{"place": "${place}", "limit": ..., "revision": ...}`,
          },
        ]
      : [],
  );
  const wrong = limits.flatMap(({ place }, index): Problem[] => {
    const at = `/limits/${index}/place`;
    if (!known.includes(place))
      return [
        {
          code: 'body.enum',
          pointer: at,
          detail: `${at}: template "${template}" has no place of that name for a limit. It has ${known.join(', ')}.`,
          found: shown(place),
          expected: known.join(', '),
        },
      ];
    return limits.findIndex((one) => one.place === place) === index
      ? []
      : [
          {
            code: 'meta.duplicate',
            pointer: at,
            detail: `${at}: stands twice. Each place takes one limit.`,
            found: place,
          },
        ];
  });
  return [...missing, ...wrong];
}
