import type { Reference } from '@breakbook/lab';
import type { Block, Section } from '../../parts/blocks.js';
import { timeOf } from '../../words/dates.js';
import type { Printing } from '../../words/printing.js';
import { termIn } from '../../words/terms.js';
import { numberOf } from '../lot-test-report/head.js';
import { type ComparisonReportContent, firstRunOfItems, nameIn } from './content.js';
import { MESSAGES } from './messages/index.js';
import { byAt, specimenNamed } from './words.js';

/** The question as it was written, the items, and the units whose making is known. */
export function askedSection(content: ComparisonReportContent, printing: Printing): Section {
  const { asked } = MESSAGES[printing.language];
  const { comparison, reference, alternative } = content.case;
  const { compared } = comparison;
  return {
    heading: asked.heading,
    blocks: [
      { block: 'box', title: asked.question, paragraphs: [comparison.question] },
      ...(compared.what === 'items with a reference'
        ? itemBlocks(content, printing)
        : [
            {
              block: 'table',
              title: asked.groups,
              columns: [{ title: asked.group }, { title: asked.lots }],
              rows: [compared.first, compared.second].map(({ title, lots }) => [title, lots.join(', ')]),
              empty: MESSAGES[printing.language].none,
            } satisfies Block,
          ]),
      ...(reference ? referenceBlocks(reference, content, printing) : []),
      ...(comparison.alternative && alternative
        ? referenceBlocks(alternative, content, printing, comparison.alternative.statement)
        : []),
    ],
  };
}

function itemBlocks(content: ComparisonReportContent, printing: Printing): Block[] {
  const { asked } = MESSAGES[printing.language];
  const { items, lab } = content;
  return [
    {
      block: 'table',
      title: asked.items,
      columns: [
        { title: asked.item },
        { title: asked.serial },
        { title: asked.origin },
        { title: asked.received },
        { title: asked.condition },
      ],
      rows: items.map(({ specimen, lot, serial, noSerialReason, origin, receivedAt, condition }) => [
        { text: specimen, under: lot, strong: true },
        serial ?? asked.noSerial(noSerialReason ?? ''),
        termIn(printing, origin),
        timeOf(receivedAt, lab.zone),
        condition,
      ]),
      empty: MESSAGES[printing.language].none,
    },
    {
      block: 'table',
      title: asked.setAside,
      columns: [{ title: asked.item }, { title: asked.because }, { title: asked.said }],
      rows: (content.case.setAside ?? []).map(({ specimen, because, by, at }) => [
        specimen,
        because,
        byAt(content, by, at),
      ]),
      empty: asked.noneSetAside,
    },
  ];
}

/** So many units stand in one row: a lot of hundreds takes several. */
const UNITS_A_ROW = 40;

function referenceBlocks(
  reference: Reference,
  content: ComparisonReportContent,
  printing: Printing,
  statement?: string,
): Block[] {
  const { asked } = MESSAGES[printing.language];
  const { zone } = content.lab;
  const name = numberOf({ number: reference.reference, revision: reference.revision }, printing);
  const lots = [...new Set(reference.units.map(({ lot }) => lot))];
  const firstRun = firstRunOfItems(content);
  const late = firstRun !== undefined && Date.parse(reference.frozenAt) > Date.parse(firstRun);
  const { variants } = reference;
  return [
    {
      block: 'subheading',
      text: statement === undefined ? asked.reference(reference.title, name) : asked.alternative(reference.title, name),
    },
    {
      block: 'facts',
      columns: 2,
      facts: [
        ...(statement === undefined ? [] : [{ label: asked.statement, value: statement }]),
        { label: asked.made, value: asked.period(reference.madeFrom, reference.madeTo) },
        {
          label: asked.frozen,
          value: [
            byAt(content, reference.chosenBy, reference.frozenAt),
            ...(late ? [asked.afterRun(timeOf(firstRun, zone))] : []),
          ].join('; '),
        },
        { label: asked.choice, value: reference.choice },
        { label: asked.units, value: asked.unitsOf(reference.units.length, lots.length) },
        {
          label: asked.variants,
          value: variants ? asked.checked(variants.list, nameIn(content, variants.checkedBy)) : asked.noVariants,
        },
      ],
    },
    {
      block: 'table',
      columns: [{ title: asked.lot }, { title: asked.count, align: 'number' }, { title: asked.serials }],
      rows: lots.flatMap((lot) => {
        const units = reference.units.filter((one) => one.lot === lot);
        return Array.from({ length: Math.ceil(units.length / UNITS_A_ROW) }, (_, index) => {
          const own = units.slice(index * UNITS_A_ROW, (index + 1) * UNITS_A_ROW);
          return [
            lot,
            `${own.length}`,
            own
              .map(({ specimen, serial }) =>
                serial === undefined || serial === specimen
                  ? specimenNamed(content, specimen)
                  : `${specimen} (${serial})`,
              )
              .join(', '),
          ];
        });
      }),
      empty: MESSAGES[printing.language].none,
    },
  ];
}
