import { comparison as comparisonFigure, FIGURE_WIDTH } from '@breakbook/figures';
import { type CharacteristicComparison, type ComparedValue, isNotEvaluated } from '@breakbook/lab';
import { comparisonFigureOf } from '../../figures/comparison-input.js';
import type { Block, Cell, Fact, Section } from '../../parts/blocks.js';
import type { Printing } from '../../words/printing.js';
import { both, differenceInWords, measuredInWords, uncertaintyInWords } from '../../words/units.js';
import type { ComparisonReportContent } from './content.js';
import { MESSAGES } from './messages/index.js';
import {
  chanceBeside,
  coverageInWords,
  levelCell,
  orWhy,
  referenceOf,
  shareOf,
  sidesOf,
  signOf,
  specimenNamed,
  toldIn,
} from './words.js';

/** A section for each declared characteristic, whatever it showed: finding, figure, numbers, every value. */
export function characteristicSections(content: ComparisonReportContent, printing: Printing): Section[] {
  return content.result.characteristics.map((found) => {
    const words = MESSAGES[printing.language].characteristic;
    return {
      heading: words.heading(found.title),
      blocks: [
        {
          block: 'paragraph',
          tone: 'claim',
          text: toldIn(content, printing, found.sentence),
          sign: signOf(found.finding),
          keep: true,
        },
        ...figureBlocks(found, content, printing),
        eachTable(found, content, printing),
        ...modesTable(found, content, printing),
        valuesTable(found, content, printing),
        ...modesNote(found, content, printing),
        leftOutTable(found, content, printing),
        stepsTable(found, printing),
      ],
    };
  });
}

/** Facts stand beside a figure that leaves them room; a taller one has the page's width. */
const BESIDE_HEIGHT = 300;

function figureBlocks(found: CharacteristicComparison, content: ComparisonReportContent, printing: Printing): Block[] {
  const facts = factsOf(found, content, printing);
  const input = comparisonFigureOf(content, found, printing);
  if (isNotEvaluated(input)) return [{ block: 'facts', columns: 3, facts }];
  const notes = found.reference
    .concat(found.items)
    .some(({ value }) => value.kind === 'atLeast' || value.kind === 'atMost');
  const words = MESSAGES[printing.language].characteristic;
  const said = [
    ...(notes ? [words.atLeast] : []),
    ...(input.axes.some(({ limits }) => limits.length > 0) ? [words.limitNote] : []),
  ];
  const narrow = comparisonFigure({ ...input, width: FIGURE_WIDTH.narrow });
  return [
    ...(narrow.height <= BESIDE_HEIGHT
      ? [{ block: 'figure beside', scene: narrow, facts, columns: 1 } as const]
      : [
          { block: 'facts', columns: 3, facts } as const,
          { block: 'figure', scene: comparisonFigure({ ...input, width: FIGURE_WIDTH.wide }) } as const,
        ]),
    ...(said.length === 0 ? [] : [{ block: 'paragraph', tone: 'note', text: said.join(' ') } as const]),
  ];
}

function factsOf(found: CharacteristicComparison, content: ComparisonReportContent, printing: Printing): Fact[] {
  const words = MESSAGES[printing.language].characteristic;
  const { unit = '1', p, pError, level, bounds, effect, smallestDifference, likelihoodRatio } = found;
  const { power } = content.case.comparison;
  // Two one-sided tests speak with limits at twice their level.
  const margins = found.tool.kind === 'equivalence' || found.tool.kind === 'non-inferiority';
  const limitsAt = margins ? 2 * level : level;
  const beside = found.items.flatMap(({ value }) =>
    value.kind === 'between' ? [value.lower, value.upper] : [value.value],
  );
  const bound = (value: number) =>
    both(measuredInWords({ value: { kind: 'exact', value }, unit, limits: beside }, printing));
  const difference = (value: number, limits?: readonly [number, number]) =>
    both(differenceInWords(value, unit, printing, { limits }));
  return [
    { label: words.lots, value: words.counts(found.reference.length, words.lot(found.lots)) },
    {
      label: words.p,
      value: [
        orWhy(p, printing, (chance) => chanceBeside(chance, level, printing)),
        ...(pError === undefined ? [] : [words.pError(printing.number(`${Number(pError.toPrecision(2))}`))]),
      ].join('; '),
    },
    { label: words.level, value: printing.number(`${Number(level.toPrecision(4))}`) },
    ...(bounds
      ? (['lower', 'upper'] as const).map((side) => {
          const value = bounds[side];
          return {
            label: words[side],
            value:
              value === undefined
                ? words.noLimit
                : orWhy(value, printing, (one) => `${bound(one)}; ${coverageInWords(level, printing)}`),
          };
        })
      : []),
    ...(effect
      ? [
          {
            label: words.effect,
            value: isNotEvaluated(effect.limits)
              ? `${difference(effect.difference)}; ${orWhy(effect.limits, printing, () => '')}`
              : `${difference(effect.difference, effect.limits)}; ${words.limits(
                  difference(effect.limits[0], effect.limits),
                  difference(effect.limits[1], effect.limits),
                  coverageInWords(limitsAt, printing),
                )}`,
          },
        ]
      : []),
    ...(smallestDifference === undefined
      ? []
      : [
          {
            label: words.smallest(shareOf(power, printing)),
            value: orWhy(smallestDifference, printing, (one) =>
              both(differenceInWords(one, unit, printing, { signed: false })),
            ),
          },
        ]),
    ...(likelihoodRatio === undefined
      ? []
      : [
          {
            label: words.likelihood,
            value: orWhy(likelihoodRatio, printing, ({ sentence }) => printing.told(sentence)),
          },
        ]),
  ];
}

function eachTable(found: CharacteristicComparison, content: ComparisonReportContent, printing: Printing): Block {
  const { characteristic: words, conclusions } = MESSAGES[printing.language];
  return {
    block: 'table',
    title: words.each,
    columns: [{ title: conclusions.item }, { title: conclusions.level }, { title: words.finding }],
    rows: found.each.map(({ specimen, level, sentence }): Cell[] => [
      { text: specimenNamed(content, specimen), strong: true },
      levelCell(level, printing),
      toldIn(content, printing, sentence),
    ]),
    empty: conclusions.noItems,
  };
}

function modesTable(
  { modes }: CharacteristicComparison,
  content: ComparisonReportContent,
  printing: Printing,
): Block[] {
  if (!modes) return [];
  const sides = sidesOf(content, printing);
  const { characteristic: words } = MESSAGES[printing.language];
  return [
    {
      block: 'table',
      title: words.modes,
      columns: [
        { title: words.mode },
        { title: sides.known, align: 'number' },
        { title: sides.asked, align: 'number' },
      ],
      rows: modes.map(({ mode, reference, items }) => [printing.told(mode), `${reference}`, `${items}`]),
      empty: words.noModes,
    },
  ];
}

/** Every value as it was compared; of failure modes, which lie on no scale, the mode alone. */
function valuesTable(found: CharacteristicComparison, content: ComparisonReportContent, printing: Printing): Block {
  const { characteristic: words } = MESSAGES[printing.language];
  const gauge = referenceOf(found, content);
  const sides = sidesOf(content, printing);
  const { unit } = found;
  const row = (group: string, one: ComparedValue): Cell[] => [
    group,
    { text: specimenNamed(content, one.specimen), under: one.lot },
    one.run ?? words.examination,
    ...(unit === undefined ? [] : valueCells(one, unit, printing)),
    one.mode === undefined ? '' : printing.told(one.mode),
  ];
  return {
    block: 'table',
    title: words.values,
    columns: [
      { title: words.group },
      { title: words.specimen },
      { title: words.run },
      ...(unit === undefined
        ? []
        : [
            { title: gauge ? `${words.value} (${printing.say(gauge)})` : words.value, align: 'number' } as const,
            { title: words.uncertainty, align: 'number' } as const,
          ]),
      { title: words.mode },
    ],
    rows: [
      ...found.items.map((one) => row(sides.askedOne, one)),
      ...found.reference.map((one) => row(sides.knownOne, one)),
    ],
    empty: words.noValues,
  };
}

/** What the codes of failure modes in the table mean, as the method has it. */
function modesNote(
  { source, reference, items }: CharacteristicComparison,
  { methods }: ComparisonReportContent,
  printing: Printing,
): Block[] {
  if (source.from !== 'runs') return [];
  const { failureModes = [] } =
    methods.find(({ method, revision }) => method === source.method && revision === source.methodRevision) ?? {};
  const codes = new Set([...items, ...reference].map(({ mode }) => mode));
  const meanings = failureModes
    .filter(({ code }) => codes.has(code))
    .map(({ code, meaning }) => `${code}: ${printing.entered(meaning)}`);
  return meanings.length === 0 ? [] : [{ block: 'paragraph', tone: 'note', text: `${meanings.join('; ')}.` }];
}

function valueCells({ value, uncertainty }: ComparedValue, unit: string, printing: Printing): Cell[] {
  const { characteristic: words } = MESSAGES[printing.language];
  const [first, second] = measuredInWords(
    { value, unit, ...(uncertainty ? { uncertainty: uncertainty.expanded } : {}) },
    printing,
  );
  return [
    { text: first, under: second },
    uncertainty
      ? {
          text: uncertaintyInWords(uncertainty.expanded, unit, printing)[0],
          under: `k = ${printing.number(`${uncertainty.k}`)}`,
        }
      : words.noU,
  ];
}

/** So many specimens stand in one row. */
const SPECIMENS_A_ROW = 40;

/** Who gave no value, by reason: of a reference that takes one test each, many were not meant to. */
function leftOutTable(found: CharacteristicComparison, content: ComparisonReportContent, printing: Printing): Block {
  const { characteristic: words } = MESSAGES[printing.language];
  const reasons = new Map<string, string[]>();
  for (const { specimen, run, because } of found.leftOut) {
    const named = specimenNamed(content, specimen);
    const all = reasons.get(because) ?? [];
    all.push(run === undefined ? named : `${named}, ${words.ofRun(run)}`);
    reasons.set(because, all);
  }
  return {
    block: 'table',
    title: words.leftOut,
    columns: [{ title: words.because }, { title: words.specimen }],
    rows: [...reasons].flatMap(([because, specimens]) =>
      Array.from({ length: Math.ceil(specimens.length / SPECIMENS_A_ROW) }, (_, index) => [
        toldIn(content, printing, because),
        specimens.slice(index * SPECIMENS_A_ROW, (index + 1) * SPECIMENS_A_ROW).join('; '),
      ]),
    ),
    empty: words.noLeftOut,
  };
}

function stepsTable({ steps }: CharacteristicComparison, printing: Printing): Block {
  const { characteristic: words, none } = MESSAGES[printing.language];
  return {
    block: 'table',
    title: words.steps,
    columns: [{ title: words.question }, { title: words.answer }, { title: words.source }],
    rows: steps.map(({ question, answer, formula, source }): Cell[] => [
      printing.told(question),
      printing.told(answer),
      { text: formula ?? '', under: source ?? '' },
    ]),
    empty: none,
  };
}
