import { listed } from '@breakbook/acceptance';
import { type Characteristic, isNotEvaluated, type Quantity, type Run, type UncertaintyBudget } from '@breakbook/lab';
import { printDeclared } from '@breakbook/units';
import { linesOf, personOf } from '../../content/judged-lot.js';
import type { LotReportContent } from '../../content/lot-report-content.js';
import type { Cell, Section } from '../../parts/blocks.js';
import { type Printing, printingOf } from '../../words/printing.js';
import { both, quantityInWords, uncertaintyInWords } from '../../words/units.js';

export function samplingSection(content: LotReportContent): Section {
  const { bundle } = content;
  const { say } = printingOf(content);
  const { sampling, size, note } = bundle.lot;
  return {
    heading: say('How were the specimens drawn?'),
    blocks: [
      sampling
        ? {
            block: 'facts',
            columns: 3,
            facts: [
              { label: say('Rule'), value: sampling.rule },
              { label: say('Drawn by, on'), value: `${personOf(bundle, sampling.drawnBy)}, ${sampling.drawnOn}` },
              { label: say('Place'), value: sampling.place },
              { label: say('Lot size'), value: say('{n} units', { n: size }) },
              ...(sampling.seed === undefined
                ? []
                : [{ label: say('Seed of the random numbers'), value: sampling.seed }]),
            ],
          }
        : {
            block: 'paragraph',
            text: say('The lab did not draw the specimens. Results apply to the sample as received.'),
          },
      {
        block: 'paragraph',
        text: note === undefined ? say('Remarks on the lot: none.') : say('Remarks on the lot: {note}', { note }),
      },
    ],
  };
}

/** Conditions as recorded: quantities as the range they lay in, words with the runs they hold for. */
export function conditionsSection(content: LotReportContent): Section {
  const { bundle } = content;
  const printing = printingOf(content);
  const { say } = printing;
  const names = [...new Set(bundle.runs.flatMap(({ conditions }) => Object.keys(conditions)))];
  return {
    heading: say('Under what conditions?'),
    blocks: [
      {
        block: 'table',
        columns: [{ title: say('Condition') }, { title: say('Value') }, { title: say('Runs') }],
        rows: names.flatMap((name) => conditionRows(bundle.runs, name, printing)),
        empty: say('none recorded'),
      },
    ],
  };
}

function conditionRows(runs: readonly Run[], name: string, printing: Printing): Cell[][] {
  const { say, language } = printing;
  const stated = runs.flatMap(({ run, conditions }) => {
    const value = conditions[name];
    return value === undefined ? [] : [{ run, value }];
  });
  const which = (some: readonly { run: string }[]) =>
    some.length === runs.length
      ? say('every run')
      : say('run {runs}', {
          runs: listed(
            some.map(({ run }) => run),
            language,
          ),
        });
  const quantities = stated.flatMap(({ value }) => (typeof value === 'string' ? [] : [value]));
  const [first] = quantities;
  if (first && quantities.length === stated.length && quantities.every(({ unit }) => unit === first.unit)) {
    const values = quantities.map(({ value }) => value);
    const [low, high] = [Math.min(...values), Math.max(...values)];
    return [[printing.entered(name), rangeOf(low, high, first.unit, printing), which(stated)]];
  }
  const written = (value: string | Quantity) =>
    typeof value === 'string' ? printing.entered(value) : quantityInWords(value.value, value.unit, printing);
  const words = [...new Set(stated.map(({ value }) => written(value)))];
  return words.map((word) => [
    printing.entered(name),
    word,
    which(stated.filter(({ value }) => written(value) === word)),
  ]);
}

function rangeOf(low: number, high: number, unit: string, printing: Printing): string {
  const to = quantityInWords(high, unit, printing, low);
  if (low === high) return to;
  // Of two numbers with one unit, the unit stands behind the second.
  const [from = ''] = quantityInWords(low, unit, printing, high).split(' ');
  return printing.say('{low} to {high}', { low: from, high: to });
}

export function deviationsSection(content: LotReportContent): Section {
  const { bundle } = content;
  const { say } = printingOf(content);
  const rows = bundle.runs.flatMap(({ run, deviations, validity }) => [
    ...deviations.map((deviation) => [run, deviation]),
    ...(validity?.validity === 'valid with deviation' && deviations.length === 0
      ? [[run, validity.note ?? say('valid with deviation; no description is recorded')]]
      : []),
  ]);
  return {
    heading: say('What departs from the method?'),
    blocks:
      rows.length === 0
        ? [{ block: 'paragraph', text: say('Additions to, deviations and exclusions from the method: none.') }]
        : [{ block: 'table', columns: [{ title: say('Run') }, { title: say('Deviation') }], rows, empty: say('none') }],
  };
}

/** The factor of the method; or the probability it asks for, with the factors that reached it. */
function factorInWords(
  { k, coverage }: UncertaintyBudget,
  found: readonly Characteristic[],
  { say, number }: Printing,
): string {
  const declared = (value: number) => number(printDeclared(value));
  if (k !== undefined) return `k = ${declared(k)}`;
  const factors = found.flatMap(({ uncertainty }) => (uncertainty ? [uncertainty.k] : [])).sort((a, b) => a - b);
  const [least, most] = [factors[0], factors.at(-1)];
  // A share such as 0.55 is no whole percentage in binary.
  const percentage = Number((100 * (coverage ?? 0)).toPrecision(12));
  const asked = say('{share} by the distributions of the parts', { share: `${declared(percentage)} %` });
  if (least === undefined || most === undefined) return asked;
  const factor =
    least === most ? declared(least) : say('{low} to {high}', { low: declared(least), high: declared(most) });
  return say('k = {factor} for {asked}', { factor, asked });
}

/** How sure one measurement is; kept apart from the scatter between specimens. */
export function uncertaintySection(content: LotReportContent): Section {
  const printing = printingOf(content);
  const { say } = printing;
  const rows = linesOf(content).flatMap(({ method }) =>
    method.characteristics.map(({ title, characteristic, definition, uncertainty }): Cell[] => {
      const found = content.readings.flatMap(({ characteristics }) =>
        characteristics.filter((one) => one.characteristic === characteristic && !isNotEvaluated(one.value)),
      );
      const expanded = found
        .flatMap((one) => (one.uncertainty ? [one.uncertainty.expanded] : []))
        .sort((a, b) => a - b);
      const [least, most] = [expanded[0], expanded.at(-1)];
      const unit = found[0]?.unit ?? '1';
      return [
        { text: title, under: definition },
        least === undefined || most === undefined
          ? say('none stated')
          : least === most
            ? both(uncertaintyInWords(least, unit, printing))
            : say('{low} to {high}', {
                low: both(uncertaintyInWords(least, unit, printing)),
                high: both(uncertaintyInWords(most, unit, printing)),
              }),
        uncertainty ? factorInWords(uncertainty, found, printing) : '',
        uncertainty ? uncertainty.components.map(({ name }) => name).join('; ') : '',
      ];
    }),
  );
  return {
    heading: say('How sure is a single measurement?'),
    blocks: [
      {
        block: 'table',
        columns: [
          { title: say('Characteristic') },
          { title: say('U') },
          { title: say('Coverage factor') },
          { title: say('Components') },
        ],
        rows: rows.filter(
          (row, index) => rows.findIndex((other) => JSON.stringify(other) === JSON.stringify(row)) === index,
        ),
        empty: say('none'),
      },
      {
        block: 'paragraph',
        tone: 'note',
        text: say(
          'U is the expanded uncertainty of one measurement, evaluated by the GUM (JCGM 100:2008) from the components named; with k = 2 it covers about 95 % for a normal distribution. It does not contain the scatter between specimens, the choice of tyre, or what differs between this bench and use on the road; scatter is told by the statistics and never added to U.',
        ),
      },
    ],
  };
}

export function testersOf(content: LotReportContent): { tested: string; reviewed: string } {
  const { bundle } = content;
  const { say, language } = printingOf(content);
  const names = (keys: (string | undefined)[]) => {
    const all = [...new Set(keys.filter((key) => key !== undefined))].map((key) => personOf(bundle, key));
    return all.length === 0 ? say('nobody yet') : listed(all, language);
  };
  return {
    tested: names(bundle.runs.map(({ operator }) => operator)),
    reviewed: names(bundle.runs.map(({ validity }) => validity?.person)),
  };
}
