import {
  type Criterion,
  isNotEvaluated,
  type LimitRef,
  Plan,
  type PlanTemplate,
  type Problem,
  Refusal,
  type ShownBy,
  schemaProblems,
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
  const { coverage = draft.coverage, confidence = draft.confidence, population = 'process', shownBy } = filling;
  const filled = draft.places.flatMap((place) => {
    const chosen = filling.limits.find((one) => one.place === place.place);
    return chosen ? [{ place, limit: { limit: chosen.limit, revision: chosen.revision } }] : [];
  });
  const criteria = filled
    .flatMap(({ place, limit }) => claimsOf(place, draft, shownBy).map((kind) => ({ kind, limit })))
    .map((one, index) => criterionOf(one, `A${index + 1}`, { draft, coverage, confidence, shownBy }));
  const stages = shownBy?.kind === 'tolerance bound' ? shownBy.stages : undefined;
  const specimens = filling.specimens ?? specimensFor(draft, criteria, stages);
  return parsed({
    plan: filling.plan,
    revision: 1,
    title: draft.title,
    product: filling.product,
    approvedBy: filling.approvedBy,
    approvedOn: filling.approvedOn,
    claim: {
      statement: statementOf(draft, { coverage, confidence, population, specimens, shownBy }),
      use: filling.use,
      population,
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
        specimens,
        ...(stages ? { stages } : {}),
        limits: filled.map(({ limit }) => limit),
        criteria,
        characteristic: draft.characteristic,
      },
    ],
  });
}

/** A plan whose numbers do not fit each other is refused as it would be when proposed. */
function parsed(plan: Plan): Plan {
  const { data, error } = Plan.safeParse(plan);
  if (error) throw new Refusal(schemaProblems(error, plan));
  return data;
}

/** What is claimed at a place: at the first of the template, which the claim is about, by the way chosen to show it. */
function claimsOf({ place, criteria }: Place, { places }: Draft, shownBy: ShownBy | undefined): Criterion['kind'][] {
  if (!shownBy || place !== places[0]?.place) return [...criteria];
  // Some may fail where failures are counted, and half do where each is struck once.
  const every = shownBy.kind === 'tolerance bound' || shownBy.kind === 'zero failures';
  return [...(every ? criteria.filter((kind) => kind === 'every specimen') : []), shownBy.kind];
}

function statementOf(
  { things, hold, beside = '' }: Draft,
  given: { coverage: number; confidence: number; population: 'process' | 'lot'; specimens: number } & Shown,
): string {
  const { coverage, confidence, population, specimens, shownBy } = given;
  const sure = `with ${percent(confidence)} confidence`;
  const claim =
    shownBy?.kind === 'failures at most'
      ? `at least ${specimens - shownBy.allowed} of the ${specimens} tested ${hold}`
      : shownBy?.kind === 'response energy'
        ? `at least half ${hold}, ${sure}`
        : `at least ${percent(coverage)} ${hold}, ${sure}`;
  return `${things} ${population === 'lot' ? 'of this lot' : 'made as this lot was made'}: ${claim}${beside}.`;
}

interface Shown {
  shownBy: ShownBy | undefined;
}

function criterionOf(
  { kind, limit }: { kind: Criterion['kind']; limit: LimitRef },
  criterion: string,
  { draft, coverage, confidence, shownBy }: { draft: Draft; coverage: number; confidence: number } & Shown,
): Criterion {
  if (shownBy?.kind === kind) return shownCriterion(shownBy);
  switch (kind) {
    case 'tolerance bound':
      return { kind, criterion, limit, distribution: draft.distribution ?? 'weibull', coverage, confidence };
    case 'zero failures':
      return { kind, criterion, limit, reliability: coverage, confidence };
    default:
      return { kind: 'every specimen', criterion, limit };
  }

  function shownCriterion(by: ShownBy): Criterion {
    switch (by.kind) {
      case 'tolerance bound':
        return { kind: by.kind, criterion, limit, distribution: by.distribution, coverage, confidence };
      case 'zero failures':
        return { ...by, criterion, limit, reliability: coverage, confidence };
      case 'failures at most':
        return { ...by, criterion, limit };
      case 'response energy':
        return { ...by, criterion, limit, share: 0.5, confidence };
    }
  }
}

/** As many as the template proposes, as the stages add up to, or as no failure would show the claim by. */
function specimensFor(draft: Draft, criteria: readonly Criterion[], stages: readonly number[] | undefined): number {
  if (stages) return stages.reduce((sum, one) => sum + one, 0);
  const zero = criteria.find((one) => one.kind === 'zero failures');
  if (!zero) return draft.specimens;
  const { reliability, confidence, raised } = zero;
  const size = zeroFailureSize({
    reliability: raised ? reliability ** (raised.loadRatio ** raised.shape) : reliability,
    confidence,
  });
  return isNotEvaluated(size) ? draft.specimens : Math.max(draft.specimens, size.n);
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
