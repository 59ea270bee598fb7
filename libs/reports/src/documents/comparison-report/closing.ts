import { nameOfLimit } from '@breakbook/acceptance';
import { GIVEN_MARKS } from '../../content/given-by.js';
import { listedKeys } from '../../content/run-lists.js';
import type { Section } from '../../parts/blocks.js';
import { timeOf } from '../../words/dates.js';
import type { Printing } from '../../words/printing.js';
import type { ComparisonReportContent } from './content.js';
import { MESSAGES } from './messages/index.js';

/** What stands around it, what it says nothing of, and who stands behind it. */
export function closingSection(content: ComparisonReportContent, printing: Printing): Section {
  const messages = MESSAGES[printing.language];
  const { closing, none } = messages;
  const { identity, lab, limits, nonconformities } = content;
  const given = givenByOthers(content, printing);
  const names = [...new Set(limits.map(({ limit }) => nameOfLimit(limit, printing.language)))];
  return {
    heading: closing.heading,
    blocks: [
      {
        block: 'facts',
        columns: 2,
        facts: [
          {
            label: closing.sampling,
            value:
              content.case.comparison.compared.what === 'two groups' ? closing.samplingOfGroups : closing.samplingOf,
          },
          { label: closing.limits, value: names.length === 0 ? closing.noLimits : closing.drawn(names.join('; ')) },
          { label: closing.given, value: given.length === 0 ? closing.givenNone : given.join('; ') },
          {
            label: closing.nonconformities,
            value:
              nonconformities
                .map(
                  ({ number, title, state }) =>
                    `${number}, ${title} (${state === 'open' ? closing.open : closing.closed})`,
                )
                .join('; ') || none,
          },
          { label: closing.concessions, value: none },
          { label: closing.opinions, value: none },
        ],
      },
      {
        block: 'paragraph',
        tone: 'note',
        text: `${closing.text} ${closing.status(`${timeOf(identity.issuedAt, lab.zone)} (${lab.zone})`)}`,
      },
      {
        block: 'signatures',
        signatures: (['prepared', 'reviewed', 'authorised'] as const).map((meaning) => {
          const found = identity.signatures.find((one) => one.meaning === meaning);
          return {
            meaning: closing.meanings[meaning],
            name: found?.name ?? closing.notSigned,
            role: found?.role ?? '',
            signed: found ? `${timeOf(found.at, lab.zone)} (${lab.zone})` : '',
          };
        }),
      },
    ],
  };
}

/** What this lab did not find itself: which feature, by whom, of which specimens. */
function givenByOthers(content: ComparisonReportContent, { language }: Printing): string[] {
  const { to } = MESSAGES[language].closing;
  const { observations, comparison } = content.case;
  const groups = new Map<string, string[]>();
  for (const { givenBy, specimen, feature, provider } of observations) {
    if (!givenBy) continue;
    const title = comparison.features.find((one) => one.feature === feature)?.title ?? feature;
    const name = `${GIVEN_MARKS[givenBy]} ${title}${provider === undefined ? '' : ` (${provider})`}`;
    groups.set(name, [...(groups.get(name) ?? []), specimen]);
  }
  return [...groups].map(([name, specimens]) => `${name}: ${listedKeys(specimens, to)}`);
}
