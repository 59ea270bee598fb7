import {
  type Criterion,
  isNotEvaluated,
  type LimitRef,
  Plan,
  type PlanTemplate,
  type Problem,
  Refusal,
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
    const limit = filling.limits[place.place];
    return limit ? [{ place, limit }] : [];
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
    needed && !limits[place]
      ? [
          {
            code: 'body.missing-field',
            pointer: `/limits/${place}`,
            detail: `/limits/${place}: template "${template}" needs a limit here. ${about}.`,
            expected: '{"limit": ..., "revision": ...}',
          },
        ]
      : [],
  );
  const unknown = Object.keys(limits).flatMap((place): Problem[] =>
    known.includes(place)
      ? []
      : [
          {
            code: 'body.unknown-field',
            pointer: `/limits/${place.replaceAll('~', '~0').replaceAll('/', '~1')}`,
            detail: `/limits: template "${template}" has no place of that name for a limit. It has ${known.join(', ')}.`,
            found: place.slice(0, 100),
            expected: known.join(', '),
          },
        ],
  );
  return [...missing, ...unknown];
}
