import { countRiskSentence, edgeRiskSentence, meanRiskSentence, populationOf } from '@breakbook/acceptance';
import type { CriterionRisk } from '@breakbook/lab';
import type { LotReportContent } from '../content/lot-report-content.js';
import type { Printing } from './printing.js';

/** What a criterion risked, as it was worded when it was weighed; in another language from the numbers that were kept. */
export function criterionRiskInWords(
  risk: CriterionRisk,
  line: string,
  { bundle: { plan, limits }, risks }: LotReportContent,
  { language }: Pick<Printing, 'language'>,
): string {
  const planned = plan.lines.find((one) => one.line === line);
  const criterion = planned?.criteria.find((one) => one.criterion === risk.criterion);
  if (language === 'en' || !planned || !criterion) return risk.sentence;
  const lotSize = populationOf(criterion, plan) === 'lot' ? risks?.lotSize : undefined;
  if (criterion.kind === 'every specimen' || criterion.kind === 'failures at most')
    return countRiskSentence(
      {
        curve: risk.curve,
        allowed: criterion.kind === 'every specimen' ? 0 : criterion.allowed,
        n: planned.specimens,
        size: lotSize,
      },
      language,
    );
  if (criterion.kind === 'mean') {
    const limit = limits.find(
      (one) => one.limit === criterion.limit.limit && one.revision === criterion.limit.revision,
    );
    return meanRiskSentence({ confidence: criterion.confidence, between: limit?.bound === 'between' }, language);
  }
  if (!risk.atLimit || risk.keeps === undefined) return risk.sentence;
  const { schedule } = risk;
  return edgeRiskSentence(
    {
      atLimit: risk.atLimit,
      keeps: risk.keeps,
      // Only what is shown without a failure is said of a lot of its size; bounds speak of the process.
      lotSize: criterion.kind === 'zero failures' ? lotSize : undefined,
      unadjusted: schedule?.unadjusted,
      looks: schedule?.unadjusted === undefined ? undefined : schedule.looks.length,
    },
    language,
  );
}
