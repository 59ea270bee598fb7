import { listed } from '@breakbook/acceptance';
import { type Characteristic, isNotEvaluated, type Quantity, type Run, type UncertaintyBudget } from '@breakbook/lab';
import { printDeclared, unitSymbol } from '@breakbook/units';
import { linesOf, personOf } from '../../content/judged-lot.js';
import { type LotReportContent } from '../../content/lot-report-content.js';
import { type Cell, type Section } from '../../parts/blocks.js';
import { both, uncertaintyInWords } from '../../words/units.js';

export function samplingSection({ bundle }: LotReportContent): Section {
  const { sampling, size, note } = bundle.lot;
  return {
    heading: 'How were the specimens drawn?',
    blocks: [
      sampling
        ? {
            block: 'facts',
            columns: 3,
            facts: [
              { label: 'Rule', value: sampling.rule },
              { label: 'Drawn by, on', value: `${personOf(bundle, sampling.drawnBy)}, ${sampling.drawnOn}` },
              { label: 'Place', value: sampling.place },
              { label: 'Lot size', value: `${size} units` },
              ...(sampling.seed === undefined ? [] : [{ label: 'Seed of the random numbers', value: sampling.seed }]),
            ],
          }
        : {
            block: 'paragraph',
            text: 'The lab did not draw the specimens. Results apply to the sample as received.',
          },
      { block: 'paragraph', text: note === undefined ? 'Remarks on the lot: none.' : `Remarks on the lot: ${note}` },
    ],
  };
}

/** Conditions as recorded: quantities as the range they lay in, words with the runs they hold for. */
export function conditionsSection({ bundle }: LotReportContent): Section {
  const names = [...new Set(bundle.runs.flatMap(({ conditions }) => Object.keys(conditions)))];
  return {
    heading: 'Under what conditions?',
    blocks: [
      {
        block: 'table',
        columns: [{ title: 'Condition' }, { title: 'Value' }, { title: 'Runs' }],
        rows: names.flatMap((name) => conditionRows(bundle.runs, name)),
        empty: 'none recorded',
      },
    ],
  };
}

function conditionRows(runs: readonly Run[], name: string): Cell[][] {
  const stated = runs.flatMap(({ run, conditions }) => {
    const value = conditions[name];
    return value === undefined ? [] : [{ run, value }];
  });
  const which = (some: readonly { run: string }[]) =>
    some.length === runs.length ? 'every run' : `run ${listed(some.map(({ run }) => run))}`;
  const quantities = stated.flatMap(({ value }) => (typeof value === 'string' ? [] : [value]));
  const [first] = quantities;
  if (first && quantities.length === stated.length && quantities.every(({ unit }) => unit === first.unit)) {
    const values = quantities.map(({ value }) => value);
    const [low, high] = [Math.min(...values), Math.max(...values)];
    const range = low === high ? printDeclared(low) : `${printDeclared(low)} to ${printDeclared(high)}`;
    return [[name, `${range} ${unitSymbol(first.unit)}`, which(stated)]];
  }
  const words = [...new Set(stated.map(({ value }) => written(value)))];
  return words.map((word) => [name, word, which(stated.filter(({ value }) => written(value) === word))]);
}

function written(value: string | Quantity): string {
  return typeof value === 'string' ? value : `${printDeclared(value.value)} ${unitSymbol(value.unit)}`;
}

export function deviationsSection({ bundle }: LotReportContent): Section {
  const rows = bundle.runs.flatMap(({ run, deviations, validity }) => [
    ...deviations.map((deviation) => [run, deviation]),
    ...(validity?.validity === 'valid with deviation' && deviations.length === 0
      ? [[run, validity.note ?? 'valid with deviation; no description is recorded']]
      : []),
  ]);
  return {
    heading: 'What departs from the method?',
    blocks:
      rows.length === 0
        ? [{ block: 'paragraph', text: 'Additions to, deviations and exclusions from the method: none.' }]
        : [{ block: 'table', columns: [{ title: 'Run' }, { title: 'Deviation' }], rows, empty: 'none' }],
  };
}

/** The factor of the method; or the probability it asks for, with the factors that reached it. */
function factorInWords({ k, coverage }: UncertaintyBudget, found: readonly Characteristic[]): string {
  if (k !== undefined) return `k = ${printDeclared(k)}`;
  const factors = found.flatMap(({ uncertainty }) => (uncertainty ? [uncertainty.k] : [])).sort((a, b) => a - b);
  const [least, most] = [factors[0], factors.at(-1)];
  // A share such as 0.55 is no whole percentage in binary.
  const percentage = Number((100 * (coverage ?? 0)).toPrecision(12));
  const asked = `${printDeclared(percentage)} % by the distributions of the parts`;
  if (least === undefined || most === undefined) return asked;
  return `k = ${least === most ? printDeclared(least) : `${printDeclared(least)} to ${printDeclared(most)}`} for ${asked}`;
}

/** How sure one measurement is; kept apart from the scatter between specimens. */
export function uncertaintySection(content: LotReportContent): Section {
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
          ? 'none stated'
          : least === most
            ? both(uncertaintyInWords(least, unit))
            : `${both(uncertaintyInWords(least, unit))} to ${both(uncertaintyInWords(most, unit))}`,
        uncertainty ? factorInWords(uncertainty, found) : '',
        uncertainty ? uncertainty.components.map(({ name }) => name).join('; ') : '',
      ];
    }),
  );
  return {
    heading: 'How sure is a single measurement?',
    blocks: [
      {
        block: 'table',
        columns: [{ title: 'Characteristic' }, { title: 'U' }, { title: 'Coverage factor' }, { title: 'Components' }],
        rows: rows.filter(
          (row, index) => rows.findIndex((other) => JSON.stringify(other) === JSON.stringify(row)) === index,
        ),
        empty: 'none',
      },
      {
        block: 'paragraph',
        tone: 'note',
        text: 'U is the expanded uncertainty of one measurement, evaluated by the GUM (JCGM 100:2008) from the components named; with k = 2 it covers about 95 % for a normal distribution. It does not contain the scatter between specimens, the choice of tyre, or what differs between this bench and use on the road; scatter is told by the statistics and never added to U.',
      },
    ],
  };
}

export function testersOf({ bundle }: LotReportContent): { tested: string; reviewed: string } {
  const names = (keys: (string | undefined)[]) => {
    const all = [...new Set(keys.filter((key) => key !== undefined))].map((key) => personOf(bundle, key));
    return all.length === 0 ? 'nobody yet' : listed(all);
  };
  return {
    tested: names(bundle.runs.map(({ operator }) => operator)),
    reviewed: names(bundle.runs.map(({ validity }) => validity?.person)),
  };
}
