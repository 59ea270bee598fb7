import { canonicalJson } from '@breakbook/evidence';
import type { Comparison, DeclaredCharacteristic, Feature } from '@breakbook/lab';
import type { Block, Cell, Section } from '../../parts/blocks.js';
import { timeOf } from '../../words/dates.js';
import type { Printing } from '../../words/printing.js';
import { both, uncertaintyInWords } from '../../words/units.js';
import { type ComparisonReportContent, firstRunOfItems, nameIn } from './content.js';
import { MESSAGES } from './messages/index.js';
import { shareOf, sourceInWords, toolInWords } from './words.js';

/** What was fixed before testing, and every later revision of it with what it changed. */
export function declaredSection(content: ComparisonReportContent, printing: Printing): Section {
  const messages = MESSAGES[printing.language];
  const { declared, tools } = messages;
  const { comparison } = content.case;
  return {
    heading: declared.heading,
    blocks: [
      {
        block: 'facts',
        columns: 3,
        facts: [
          { label: declared.confidence, value: shareOf(comparison.confidence, printing) },
          { label: declared.correction, value: tools.corrections[comparison.correction] },
          { label: declared.power, value: shareOf(comparison.power, printing) },
          { label: declared.seed, value: `${comparison.seed}` },
          { label: declared.court, value: comparison.mayGoToCourt ? messages.yes : messages.no },
          { label: declared.revision, value: `${comparison.revision}, ${nameIn(content, comparison.declaredBy)}` },
        ],
      },
      {
        block: 'table',
        columns: [
          { title: declared.characteristic },
          { title: declared.source },
          { title: declared.tool },
          { title: declared.matters },
        ],
        rows: comparison.characteristics.map((one) => characteristicRow(one, content, printing)),
        empty: messages.none,
      },
      ...droppedSince(content.case).map(
        ({ title, revision }) =>
          ({ block: 'paragraph', tone: 'plain', text: declared.dropped(title, revision) }) as const,
      ),
      {
        block: 'table',
        title: declared.features,
        columns: [
          { title: declared.feature },
          { title: declared.kind },
          { title: declared.howRead },
          { title: declared.changes },
        ],
        rows: comparison.features.map((one) => [
          { text: one.title, ...underLater(laterOf(content.case, one, featureOf), printing) },
          declared.kinds[one.kind],
          one.howRead,
          one.changesItem ? { text: messages.yes, strong: true } : messages.no,
        ]),
        empty: messages.none,
      },
      revisionsTable(content, printing),
    ],
  };
}

function characteristicRow(one: DeclaredCharacteristic, content: ComparisonReportContent, printing: Printing): Cell[] {
  const { declared } = MESSAGES[printing.language];
  const { unit = '1', differenceThatMatters, betweenRigs } = one;
  const quantity = (value: number) => both(uncertaintyInWords(value, unit, printing));
  return [
    { text: one.title, strong: true, ...underLater(laterOf(content.case, one, characteristicOf), printing) },
    sourceInWords(one, content, printing),
    {
      text: toolInWords(one, printing),
      ...(betweenRigs ? { under: declared.betweenRigs(quantity(betweenRigs.u), betweenRigs.from) } : {}),
    },
    differenceThatMatters === undefined ? declared.noneDeclared : quantity(differenceThatMatters),
  ];
}

function underLater(later: Later | undefined, printing: Printing): { under?: string } {
  if (!later) return {};
  const { declared } = MESSAGES[printing.language];
  return { under: later.how === 'added' ? declared.since(later.revision) : declared.changed(later.revision) };
}

interface Later {
  how: 'added' | 'changed';
  revision: number;
}

const characteristicOf = ({ characteristics }: Comparison, { name }: DeclaredCharacteristic) =>
  characteristics.find((one) => one.name === name);
const featureOf = ({ features }: Comparison, { feature }: Feature) => features.find((one) => one.feature === feature);

/** In which later revision something came to be declared as it is; undefined where the first one has it so. */
export function laterOf<T>(
  { comparison, earlier = [] }: { comparison: Comparison; earlier?: Comparison[] | undefined },
  one: T,
  find: (comparison: Comparison, one: T) => T | undefined,
): Later | undefined {
  const all = [...earlier, comparison].sort((a, b) => a.revision - b.revision);
  const [first] = all;
  const asNow = canonicalJson(one);
  const since = all.findLastIndex((revision) => {
    const found = find(revision, one);
    return found === undefined || canonicalJson(found) !== asNow;
  });
  const from = all[since + 1];
  if (since < 0 || !from || !first) return undefined;
  return { how: find(first, one) === undefined ? 'added' : 'changed', revision: from.revision };
}

/** Characteristics and features of earlier revisions that are no longer declared, each with the last revision that had it. */
function droppedSince({
  comparison,
  earlier = [],
}: ComparisonReportContent['case']): { title: string; revision: number }[] {
  const dropped = new Map<string, { title: string; revision: number }>();
  for (const one of earlier.toSorted((a, b) => a.revision - b.revision)) {
    for (const declared of one.characteristics)
      if (!characteristicOf(comparison, declared))
        dropped.set(`characteristic ${declared.name}`, { title: declared.title, revision: one.revision });
    for (const feature of one.features)
      if (!featureOf(comparison, feature))
        dropped.set(`feature ${feature.feature}`, { title: feature.title, revision: one.revision });
  }
  return [...dropped.values()];
}

function revisionsTable(content: ComparisonReportContent, printing: Printing): Block {
  const { declared, none } = MESSAGES[printing.language];
  const { comparison, earlier = [] } = content.case;
  const firstRun = firstRunOfItems(content);
  return {
    block: 'table',
    title: declared.revisions,
    columns: [
      { title: declared.number },
      { title: declared.declaredAt },
      { title: declared.reason },
      { title: declared.when },
    ],
    rows: [...earlier, comparison]
      .toSorted((a, b) => a.revision - b.revision)
      .map(({ revision, declaredAt, declaredBy, reason }): Cell[] => [
        `${revision}`,
        { text: timeOf(declaredAt, content.lab.zone), under: nameIn(content, declaredBy) },
        reason ?? declared.first,
        firstRun === undefined
          ? declared.noRun
          : Date.parse(declaredAt) > Date.parse(firstRun)
            ? { text: declared.after, strong: true }
            : declared.before,
      ]),
    empty: none,
  };
}
