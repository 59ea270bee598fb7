import { nameOfLimit, rangeInWords, ruleInWords } from '@breakbook/acceptance';
import { isExternal, limitName } from '@breakbook/lab';
import { linesOf } from '../../content/judged-lot.js';
import type { LotReportContent } from '../../content/lot-report-content.js';
import type { Section } from '../../parts/blocks.js';
import { formulaOf, inOtherUnits } from '../../words/limit-words.js';
import { printingOf } from '../../words/printing.js';

/** Against what, from which source, by which rule. */
export function limitsSection(content: LotReportContent): Section {
  const printing = printingOf(content);
  const { say, language } = printing;
  const limits = [
    ...new Map(
      linesOf(content)
        .flatMap((line) => line.limits)
        .map((one) => [limitName(one), one]),
    ).values(),
  ];
  return {
    heading: say('Which limits apply, and how is a result set against them?'),
    blocks: [
      {
        block: 'table',
        columns: [
          { title: say('Limit') },
          { title: say('Value') },
          { title: say('Basis, source and edition') },
          { title: say('Applies to') },
          { title: say('In force from') },
          { title: say('Standing') },
        ],
        rows: limits.map((limit) => [
          { text: nameOfLimit(limit, language), under: limit.title },
          { text: rangeInWords(limit, language), under: inOtherUnits(limit, printing) },
          {
            text: isExternal(limit) ? say('{basis} (external)', { basis: say(limit.basis) }) : say(limit.basis),
            under: `${limit.source} ${limit.edition}.`,
          },
          limit.appliesTo,
          limit.inForceFrom,
          say(limit.standing),
        ]),
        empty: say('none'),
      },
      {
        block: 'table',
        title: say('Decision rules'),
        columns: [
          { title: say('Limit') },
          { title: say('Rule') },
          { title: say('In words') },
          { title: say('Formula') },
        ],
        rows: limits.map((limit) => [
          nameOfLimit(limit, language),
          say(limit.decisionRule.rule),
          ruleInWords(limit, language),
          formulaOf(limit, printing),
        ]),
        empty: say('none'),
      },
      {
        block: 'paragraph',
        tone: 'note',
        text: say(
          'y is the result, U its expanded uncertainty, TL the limit. Under a simple rule a result at the limit is wrongly accepted with a probability of up to 50 %; a guard band of U lowers that below 2.5 % (ILAC-G8:09/2019). Every verdict is made from the unrounded result and the unrounded limit; results are printed rounded to their uncertainty, with more digits where fewer would show them on the other side of a limit.',
        ),
      },
    ],
  };
}
