import { type Feature, type FeatureComparison, itemsOf, knownOf, type Observation } from '@breakbook/lab';
import { GIVEN_MARKS } from '../../content/given-by.js';
import type { Block, Cell, Section } from '../../parts/blocks.js';
import { timeOf } from '../../words/dates.js';
import type { Printing } from '../../words/printing.js';
import { quantityInWords } from '../../words/units.js';
import { type ComparisonReportContent, nameIn } from './content.js';
import { MESSAGES } from './messages/index.js';
import { byAt, levelCell, sidesOf, specimenNamed, toldIn } from './words.js';

/** Every declared feature side by side: on the reference, in the build records, and on each item; then the photographs. */
export function seenSection(content: ComparisonReportContent, printing: Printing): Section {
  const { seen } = MESSAGES[printing.language];
  const { features } = content.result;
  const measured = content.case.comparison.features.filter(
    ({ feature }) => !features.some((one) => one.feature.feature === feature),
  );
  return {
    heading: seen.heading,
    blocks: [
      ...(features.length + measured.length === 0
        ? [{ block: 'paragraph', text: seen.none } as const]
        : features.flatMap((one) => featureBlocks(one, content, printing))),
      ...measured.map((one) => measuredTable(one, content, printing)),
      photosTable(content, printing),
      ...(content.photos.length === 0 ? [] : [{ block: 'paragraph', tone: 'note', text: seen.photosNote } as const]),
    ],
  };
}

/** A feature of which quantities were written down: those of the items beside the span of the reference. */
function measuredTable({ feature, title }: Feature, content: ComparisonReportContent, printing: Printing): Block {
  const { seen, asked } = MESSAGES[printing.language];
  const { observations } = content.case;
  const own = observations.filter((one) => one.feature === feature);
  const known = new Set(knownOf(content.case));
  const sides = sidesOf(content, printing);
  const items = new Set(itemsOf(content.case));
  const ofReference = own
    .filter(({ specimen, quantity }) => known.has(specimen) && quantity)
    .sort((a, b) => (a.quantity?.value ?? 0) - (b.quantity?.value ?? 0));
  const [least, most] = [ofReference[0], ofReference.at(-1)];
  return {
    block: 'table',
    title,
    columns: [{ title: seen.of }, { title: seen.seen }, { title: seen.how }],
    rows: [
      ...(least && most
        ? [
            [
              sides.knownOne,
              asked.period(asSeen(least, printing), asSeen(most, printing)),
              seen.otherUnits(ofReference.length),
            ],
          ]
        : []),
      ...own
        .filter(({ specimen }) => items.has(specimen))
        .map((one): Cell[] => [
          { text: specimenNamed(content, one.specimen), strong: true },
          { text: [asSeen(one, printing), ...marksOf([one])].join(' '), under: one.note ?? '' },
          howSeen(one, content),
        ]),
    ],
    empty: seen.noneSeen,
  };
}

function featureBlocks(
  { feature, reference, variants, items, sentence }: FeatureComparison,
  content: ComparisonReportContent,
  printing: Printing,
): Block[] {
  const { seen } = MESSAGES[printing.language];
  const known: Cell[][] = [
    ...reference.map(({ seen: as, units }): Cell[] => [
      sidesOf(content, printing).knownOne,
      as,
      seen.otherUnits(units),
      '',
    ]),
    ...(variants.length === 0 ? [] : [[seen.variants, variants.join('; '), '', '']]),
  ];
  return [
    {
      block: 'table',
      title: feature.title,
      columns: [{ title: seen.of }, { title: seen.seen }, { title: seen.how }, { title: seen.level }],
      rows: [
        ...known,
        ...items.map(({ specimen, seen: as, level }): Cell[] => {
          const own = content.case.observations.filter(
            (one) => one.specimen === specimen && one.feature === feature.feature,
          );
          return [
            { text: specimenNamed(content, specimen), strong: true },
            {
              text:
                [as ?? own.map((one) => asSeen(one, printing)).join('; '), ...marksOf(own)].join(' ').trim() ||
                seen.nothingSeen,
              under: own.flatMap(({ note }) => note ?? []).join(' '),
            },
            own.map((one) => howSeen(one, content)).join('; '),
            levelCell(level, printing),
          ];
        }),
      ],
      empty: seen.noneSeen,
    },
    { block: 'paragraph', text: toldIn(content, printing, sentence) },
  ];
}

function asSeen({ seen, quantity }: Observation, printing: Printing): string {
  return seen ?? (quantity ? quantityInWords(quantity.value, quantity.unit, printing) : '');
}

function marksOf(observations: readonly Observation[]): string[] {
  return [...new Set(observations.flatMap(({ givenBy }) => (givenBy ? [GIVEN_MARKS[givenBy]] : [])))];
}

function howSeen({ by, at, instrument, provider }: Observation, content: ComparisonReportContent): string {
  return [provider, byAt(content, by, at), instrument].filter((one) => one !== undefined).join('; ');
}

function photosTable(content: ComparisonReportContent, printing: Printing): Block {
  const { seen } = MESSAGES[printing.language];
  const rows = content.case.observations.flatMap(({ specimen, feature, photos = [], by, at }) =>
    photos.map((sha256) => ({ specimen, feature, sha256, by, at })),
  );
  const titleOf = (feature: string) =>
    content.case.comparison.features.find((one) => one.feature === feature)?.title ?? feature;
  return {
    block: 'table',
    title: seen.photos,
    columns: [{ title: seen.shows }, { title: seen.photo }, { title: seen.taken }, { title: seen.digest }],
    rows: rows.map(({ specimen, feature, sha256, by, at }): Cell[] => {
      const photo = content.photos.find((one) => one.sha256 === sha256);
      return [
        { text: specimenNamed(content, specimen), under: titleOf(feature) },
        photo ? { text: photo.name, under: photo.caption } : '–',
        photo
          ? `${photo.takenBy}, ${timeOf(photo.takenAt, content.lab.zone)}`
          : `${nameIn(content, by)}, ${timeOf(at, content.lab.zone)}`,
        sha256,
      ];
    }),
    empty: seen.noPhotos,
  };
}
