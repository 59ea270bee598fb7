import { rangeInWords, ruleInWords } from '@breakbook/acceptance';
import { isExternal, type Limit, limitName } from '@breakbook/lab';
import { linesOf } from '../../content/judged-lot.js';
import { type LotReportContent } from '../../content/lot-report-content.js';
import { type Section } from '../../parts/blocks.js';
import { measuredInWords } from '../../words/units.js';

/** Against what, from which source, by which rule. */
export function limitsSection(content: LotReportContent): Section {
  const limits = [
    ...new Map(
      linesOf(content)
        .flatMap((line) => line.limits)
        .map((one) => [limitName(one), one]),
    ).values(),
  ];
  return {
    heading: 'Which limits apply, and how is a result set against them?',
    blocks: [
      {
        block: 'table',
        columns: [
          { title: 'Limit' },
          { title: 'Value' },
          { title: 'Basis, source and edition' },
          { title: 'Applies to' },
          { title: 'In force from' },
          { title: 'Standing' },
        ],
        rows: limits.map((limit) => [
          { text: limitName(limit), under: limit.title },
          { text: rangeInWords(limit), under: inSecondUnit(limit) },
          {
            text: `${limit.basis}${isExternal(limit) ? ' (external)' : ''}`,
            under: `${limit.source} ${limit.edition}.`,
          },
          limit.appliesTo,
          limit.inForceFrom,
          limit.standing,
        ]),
        empty: 'none',
      },
      {
        block: 'table',
        title: 'Decision rules',
        columns: [{ title: 'Limit' }, { title: 'Rule' }, { title: 'In words' }, { title: 'Formula' }],
        rows: limits.map((limit) => [limitName(limit), limit.decisionRule.rule, ruleInWords(limit), formulaOf(limit)]),
        empty: 'none',
      },
      {
        block: 'paragraph',
        tone: 'note',
        text: 'y is the result, U its expanded uncertainty, TL the limit. Under a simple rule a result at the limit is wrongly accepted with a probability of up to 50 %; a guard band of U lowers that below 2.5 % (ILAC-G8:09/2019). Every verdict is made from the unrounded result and the unrounded limit; results are printed rounded to their uncertainty, with more digits where fewer would show them on the other side of a limit.',
      },
    ],
  };
}

function inSecondUnit(limit: Limit): string {
  if (limit.bound === 'absent') return '';
  const values = limit.bound === 'between' ? [limit.lower, limit.upper] : [limit.value];
  return values
    .map((value) => measuredInWords({ value: { kind: 'exact', value }, unit: limit.unit })[1])
    .filter((text) => text !== '')
    .join(' to ');
}

function formulaOf(limit: Limit): string {
  const { decisionRule } = limit;
  // Of four outcomes the formula gives the one without a condition; the words beside it tell the others.
  const band = decisionRule.rule === 'simple' ? '' : decisionRule.r === 1 ? ' U' : ` ${decisionRule.r} U`;
  const plus = band === '' ? '' : ` +${band}`;
  const minus = band === '' ? '' : ` −${band}`;
  switch (limit.bound) {
    case 'at least':
      return `y ≥ TL${plus}`;
    case 'at most':
      return `y ≤ TL${minus}`;
    case 'between':
      return `lower TL${plus} ≤ y ≤ upper TL${minus}`;
    case 'absent':
      return 'number found = 0';
  }
}
