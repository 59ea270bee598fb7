import {
  boundSentence,
  criterionStatement,
  outlierSentence,
  pooledSentence,
  populationOf,
  stageSentence,
} from '@breakbook/acceptance';
import type { CriterionResult, LineResult } from '@breakbook/lab';
import { type JudgedLot, limitOf } from '../content/judged-lot.js';
import type { Printing } from './printing.js';

type Words = Pick<Printing, 'language' | 'told' | 'units'>;

/** What a criterion claims: as it was stored, and in another language from the plan. */
export function statementInWords(found: CriterionResult, { bundle }: JudgedLot, { language }: Words): string {
  const criterion = bundle.plan.lines
    .flatMap(({ criteria }) => criteria)
    .find((one) => one.criterion === found.criterion && one.kind === found.kind);
  if (language === 'en' || !criterion) return found.statement;
  const population = populationOf(criterion, bundle.plan);
  return criterionStatement(criterion, limitOf(bundle, found.limit), population, language);
}

/** The bound that a criterion rests on, as a sentence in the unit of the document; undefined where there is none. */
export function boundSaid(
  { bound, numbers, unit, limitValue, pooled }: CriterionResult,
  { language, units }: Words,
  into: (value: number) => number,
): string | undefined {
  const { population } = numbers;
  // Values that are pooled are all of broken specimens: others cannot be ranked among them.
  const { specimens, broken } = pooled?.used ? { specimens: pooled.n, broken: pooled.n } : numbers;
  if (!bound || typeof specimens !== 'number' || typeof broken !== 'number') return undefined;
  const { value, coverage, confidence } = bound;
  return boundSentence(
    {
      bound: into(value),
      unit: units.of(unit),
      coverage,
      confidence,
      population: population === 'lot' ? 'lot' : 'process',
      n: specimens,
      failures: broken,
      limit: into(limitValue),
    },
    language,
  );
}

/** Looks of a declared schedule. */
export function stagesInWords({ stages = [], unit }: LineResult, { language, told }: Words): string[] {
  return stages.flatMap((stage) => {
    if (stage.sentence === undefined) return [];
    if (language === 'en') return [stage.sentence];
    // Looks that were not needed are not kept: how many were declared, the sentence says.
    const of = /^Stage \d+ of (\d+)/.exec(stage.sentence)?.[1];
    return [of === undefined ? told(stage.sentence) : stageSentence(stage, Number(of), unit, language)];
  });
}

export function outliersInWords({ outliers = [], unit }: LineResult, { language, told }: Words): string[] {
  return outliers.flatMap((found) => {
    if (found.sentence === undefined) return [];
    return [language === 'en' ? found.sentence : outlierSentence(found, unit, language, told)];
  });
}

/** Earlier lots beside each criterion that pools them. */
export function pooledInWords(
  { criteria }: LineResult,
  { language, told }: Words,
): [criterion: string, said: string][] {
  return criteria.flatMap(({ criterion, pooled }) => {
    if (pooled?.sentence === undefined) return [];
    const said = language === 'en' ? pooled.sentence : pooledSentence(pooled, language, told);
    return [[criterion, said] satisfies [string, string]];
  });
}
