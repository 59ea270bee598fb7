import { type CriterionRisk, isNotEvaluated, type LineRisk, notEvaluated, type PlanLine } from '@breakbook/lab';
import { togetherSentence } from '../../words/index.js';
import { within } from '../setting.js';
import type { RiskOrNot } from './criterion-risk.js';

type Together = LineRisk['together'];

/**
 * How often does a lot pass all criteria of a line? They are judged on the same specimens, so that they hang together in a
 * way nobody knows; without that, between
 *
 *     all   max(0, sum of chances - (m - 1))   and   min of chances
 *     any   max of chances                     and   min(1, sum of chances)
 *
 * for criteria on one limit, whose shares mean the same. Of several limits the sum needs a lot that is bad in one thing and
 * perhaps good in another, and only the upper end for "all" stands: no more often than it passes its hardest criterion.
 *
 * Source: Frechet (1935), Fund. Math. 25, 379-387; Bonferroni's inequality.
 */
export function lineTogether(line: PlanLine, risks: readonly RiskOrNot[]): Together {
  const known = risks.filter((one): one is CriterionRisk => !isNotEvaluated(one) && one.curve.length > 0);
  const rule = line.combination?.rule ?? 'all';
  if (known.length === 0)
    return notEvaluated(
      'no criterion of the line has a curve',
      'a criterion can be weighed by the share below its limit',
    );
  if (new Set(line.criteria.map(({ limit }) => `${limit.limit}@${limit.revision}`)).size > 1)
    return rule === 'any'
      ? notEvaluated(
          'the criteria stand against several limits, and a lot may be bad by one and good by another',
          'the criteria stand against one limit',
        )
      : { curve: [], sentence: togetherSentence({ several: true, criteria: line.criteria.length, rule }) };
  if (rule === 'any' && known.length < risks.length)
    return notEvaluated('a criterion that alone would be enough cannot be weighed', 'every criterion can be weighed');
  // "Every specimen" and "zero failures" on one limit are one event, and are counted once.
  const apart = known.filter(
    (one, index) => !isNoneFails(line, one) || known.findIndex((other) => isNoneFails(line, other)) === index,
  );
  const shares = commonShares(known);
  const curve = shares.map((share) => {
    const chances = apart.map((one) => one.curve.find((point) => point.share === share)?.chance as number);
    const sum = chances.reduce((all, one) => all + one, 0);
    const [least, most] = [Math.min(...chances), Math.max(...chances)];
    // A criterion that cannot be weighed may fail every lot.
    const floor = known.length < risks.length ? 0 : within(sum - (chances.length - 1));
    return rule === 'all'
      ? { share, atLeast: Math.min(floor, least), atMost: least }
      : { share, atLeast: most, atMost: within(sum) };
  });
  return { curve, sentence: togetherSentence({ several: false, criteria: line.criteria.length, rule, curve }) };
}

function isNoneFails({ criteria }: PlanLine, { criterion, kind }: CriterionRisk): boolean {
  const declared = criteria.find((one) => one.criterion === criterion);
  return kind === 'every specimen' || (declared?.kind === 'zero failures' && !declared.raised);
}

function commonShares(known: readonly CriterionRisk[]): number[] {
  const [first, ...others] = known;
  return (first?.curve ?? [])
    .map(({ share }) => share)
    .filter((share) => others.every(({ curve }) => curve.some((point) => point.share === share)));
}
