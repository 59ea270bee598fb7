import { itemsOf } from '@breakbook/lab';
import type { Block, Cell, Section } from '../../parts/blocks.js';
import { timeOf } from '../../words/dates.js';
import type { Printing } from '../../words/printing.js';
import { numberOf } from '../lot-test-report/head.js';
import { type ComparisonReportContent, nameIn } from './content.js';
import { MESSAGES } from './messages/index.js';
import { byAt, specimenNamed, toldIn } from './words.js';

/** Who had each item and in what condition, where that does not join up, in what order it was examined, who agreed, who was blinded. */
export function custodySection(content: ComparisonReportContent, printing: Printing): Section {
  const { custody } = MESSAGES[printing.language];
  return {
    heading: custody.heading,
    blocks: [
      custodyTable(content, printing),
      gapsTable(content, printing),
      orderTable(content, printing),
      consentsTable(content, printing),
      { block: 'subheading', text: custody.blind },
      ...blindBlocks(content, printing),
    ],
  };
}

const byTime = <T extends { at: string }>(events: readonly T[]): T[] =>
  events.toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at));

function custodyTable(content: ComparisonReportContent, printing: Printing): Block {
  const messages = MESSAGES[printing.language];
  const { custody } = messages;
  return {
    block: 'table',
    title: custody.title,
    columns: [
      { title: custody.item },
      { title: custody.when },
      { title: custody.step },
      { title: custody.hands },
      { title: custody.condition },
      { title: custody.changes },
    ],
    rows: byTime(content.case.custody).map(({ specimen, step, at, from, to, place, seal, condition, ...rest }) => [
      specimen,
      { text: timeOf(at, content.lab.zone), under: custody.recordedBy(nameIn(content, rest.recordedBy)) },
      custody.steps[step],
      {
        text: from === undefined ? nameIn(content, to) : custody.to(nameIn(content, from), nameIn(content, to)),
        under: place,
      },
      { text: condition, under: seal === undefined ? custody.noSeal : custody.seal(seal) },
      rest.changesItem ? { text: messages.yes, strong: true } : messages.no,
    ]),
    empty: custody.noneRecorded,
  };
}

function gapsTable(content: ComparisonReportContent, printing: Printing): Block {
  const { custody } = MESSAGES[printing.language];
  const { zone } = content.lab;
  return {
    block: 'table',
    title: custody.gaps,
    columns: [{ title: custody.item }, { title: custody.between }, { title: custody.gap }],
    rows: content.result.gaps.map(({ specimen, after, before, sentence }) => [
      { text: specimenNamed(content, specimen), strong: true },
      [after, before].map((at) => (at === undefined ? '–' : timeOf(at, zone))).join('; '),
      toldIn(content, printing, withNames(content, specimen, sentence)),
    ]),
    empty: custody.noGaps,
  };
}

/** Who had an item is kept by key, and printed by name. */
function withNames(content: ComparisonReportContent, specimen: string, sentence: string): string {
  const own = content.case.custody.filter((one) => one.specimen === specimen);
  const keys = [...new Set(own.flatMap(({ from, to }) => [from ?? to, to]))].filter(
    (key) => nameIn(content, key) !== key,
  );
  if (keys.length === 0) return sentence;
  const any = keys.map((key) => key.replaceAll('.', '\\.')).join('|');
  return sentence.replace(new RegExp(`(?<![\\w.-])(?:${any})(?![\\w-])`, 'g'), (key) => nameIn(content, key));
}

interface Examined {
  specimen: string;
  at: string;
  what: string;
  by: string;
  changes: boolean;
}

/** What was looked at, cut and broken, item by item as time went: a later step finds the item as the one before left it. */
function orderTable(content: ComparisonReportContent, printing: Printing): Block {
  const messages = MESSAGES[printing.language];
  const { custody } = messages;
  const { observations, runs, comparison } = content.case;
  const items = new Set(itemsOf(content.case));
  const events: Examined[] = [
    ...observations.flatMap(({ specimen, feature, at, by, provider }): Examined[] => {
      const declared = comparison.features.find((one) => one.feature === feature);
      return [
        {
          specimen,
          at,
          what: custody.looked(declared?.title ?? feature),
          by: provider ?? nameIn(content, by),
          changes: declared?.changesItem ?? false,
        },
      ];
    }),
    ...content.case.custody.flatMap(({ specimen, step, at, to, condition, changesItem }): Examined[] =>
      step === 'examined'
        ? [
            {
              specimen,
              at,
              what: `${custody.steps[step]}: ${condition}`,
              by: nameIn(content, to),
              changes: changesItem,
            },
          ]
        : [],
    ),
    // A run ends what its specimen was: it is made to break it.
    ...runs.map(
      ({ run, specimen, method, methodRevision, startedAt }): Examined => ({
        specimen,
        at: startedAt,
        what: custody.run(run, numberOf({ number: method, revision: methodRevision }, printing)),
        by: content.conduct.find((one) => one.run === run)?.operator ?? messages.notStated,
        changes: true,
      }),
    ),
  ].filter(({ specimen }) => items.has(specimen));
  return {
    block: 'table',
    title: custody.order,
    columns: [
      { title: custody.item },
      { title: custody.when },
      { title: custody.what },
      { title: custody.by },
      { title: custody.changes },
    ],
    rows: byTime(events).map(({ specimen, at, what, by, changes }): Cell[] => [
      specimen,
      timeOf(at, content.lab.zone),
      what,
      by,
      changes ? { text: custody.yes, strong: true } : messages.no,
    ]),
    empty: custody.nothing,
  };
}

function consentsTable(content: ComparisonReportContent, printing: Printing): Block {
  const { custody } = MESSAGES[printing.language];
  return {
    block: 'table',
    title: custody.consents,
    columns: [{ title: custody.kind }, { title: custody.party }, { title: custody.about }, { title: custody.when }],
    rows: byTime(content.case.consents ?? []).map(({ kind, party, about, at, recordedBy }) => [
      custody.kinds[kind],
      party,
      about,
      byAt(content, recordedBy, at),
    ]),
    empty: custody.noConsents,
  };
}

function blindBlocks(content: ComparisonReportContent, printing: Printing): Block[] {
  const { custody } = MESSAGES[printing.language];
  const { blind } = content.case.comparison;
  const { locked, lab, codes } = content;
  if (!blind || !locked) return [{ block: 'paragraph', text: custody.notBlinded }];
  return [
    {
      block: 'paragraph',
      text: custody.blinded({
        who: blind.blinded.map((key) => nameIn(content, key)).join(', '),
        until: `${timeOf(locked.at, lab.zone)} (${lab.zone})`,
        by: locked.by,
        keeper: nameIn(content, blind.listKeptBy),
      }),
    },
    ...(codes.length === 0
      ? []
      : [
          {
            block: 'table',
            title: custody.codes,
            columns: [{ title: custody.code }, { title: custody.item }],
            rows: codes.map(({ code, specimen }) => [code, specimenNamed(content, specimen)]),
            empty: custody.noneRecorded,
          } satisfies Block,
        ]),
  ];
}
