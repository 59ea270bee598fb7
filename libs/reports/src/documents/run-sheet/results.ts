import { nameOfLimit, rangeInWords, ruleInWords } from '@breakbook/acceptance';
import { type Characteristic, isNotEvaluated, type Limit, type Result, type Verdict } from '@breakbook/lab';
import { GIVEN_MARKS, giverOf } from '../../content/given-by.js';
import { limitOf } from '../../content/judged-lot.js';
import type { Block, Cell, Section } from '../../parts/blocks.js';
import { formulaOf, inOtherUnits } from '../../words/limit-words.js';
import type { Printing } from '../../words/printing.js';
import { termIn } from '../../words/terms.js';
import { both, marginInWords, measuredInWords, uncertaintyInWords } from '../../words/units.js';
import type { RunSheetContent } from './content.js';
import { MESSAGES } from './messages.js';
import { runOf, validityOf } from './run-of.js';

/** Values with their uncertainty, verdicts with limit, rule and margin. */
export function resultsSection(content: RunSheetContent, printing: Printing): Section {
  const { shown } = MESSAGES[printing.language];
  return {
    heading: shown.heading,
    blocks: [valuesTable(content, printing), verdictsTable(content, printing)],
  };
}

function valuesTable(content: RunSheetContent, printing: Printing): Block {
  const { shown } = MESSAGES[printing.language];
  const validity = validityOf(content);
  const counts = validity === 'valid' || validity === 'valid with deviation';
  const results: readonly (Result | Characteristic)[] = counts
    ? (content.judgement?.results ?? [])
    : (content.reading?.characteristics ?? []);
  return {
    block: 'table',
    ...(counts || results.length === 0 ? {} : { title: shown.recordOnly(termIn(printing, validity)) }),
    columns: [
      { title: shown.characteristic },
      { title: shown.result, align: 'number' },
      { title: shown.uncertainty, align: 'number' },
      { title: shown.why },
    ],
    rows: results.map((one) => valueRow(content, one, printing)),
    empty: shown.none,
  };
}

function valueRow(content: RunSheetContent, result: Result | Characteristic, printing: Printing): Cell[] {
  const { shown } = MESSAGES[printing.language];
  const { characteristic, title, value, unit, uncertainty, reference } = result;
  const giver = giverOf(runOf(content), characteristic);
  const name = `${title}${reference ? ` (${shown.gauge[reference]})` : ''}${giver ? ` ${GIVEN_MARKS[giver]}` : ''}`;
  if (isNotEvaluated(value))
    return [
      name,
      shown.notEvaluated,
      '',
      {
        text: printing.told(value.notEvaluated.because),
        under: shown.possibleIf(printing.told(value.notEvaluated.possibleIf)),
      },
    ];
  const limits = (content.judgement?.verdicts ?? [])
    .filter((one) => one.characteristic === characteristic)
    .flatMap(({ limitValue, acceptance }) => [limitValue.lower, limitValue.upper, acceptance.lower, acceptance.upper])
    .filter((one) => one !== undefined);
  const [first, second] = measuredInWords(
    {
      value,
      unit,
      limits,
      ...(uncertainty ? { uncertainty: uncertainty.expanded } : {}),
    },
    printing,
  );
  const [u, uSecond] = uncertainty
    ? uncertaintyInWords(uncertainty.expanded, unit, printing)
    : [shown.noUncertainty, ''];
  const caution = content.reading?.characteristics.find((one) => one.characteristic === characteristic)?.caution;
  const because = 'because' in result ? result.because : '';
  const mode = 'mode' in result && result.mode !== undefined && !because.includes(result.mode) ? result.mode : '';
  return [
    name,
    { text: first, under: second },
    { text: u, under: uncertainty ? `k = ${uncertainty.k}${uSecond === '' ? '' : `; ${uSecond}`}` : '' },
    {
      text: printing.told(because),
      under: [mode, caution && !because.includes(caution) ? caution : '']
        .filter((one) => one !== '')
        .map(printing.told)
        .join('; '),
    },
  ];
}

function verdictsTable(content: RunSheetContent, printing: Printing): Block {
  const { shown } = MESSAGES[printing.language];
  const validity = validityOf(content);
  const counts = validity === 'valid' || validity === 'valid with deviation';
  const verdicts = counts ? (content.judgement?.verdicts ?? []) : [];
  return {
    block: 'table',
    columns: [{ title: shown.limit }, { title: shown.asks }, { title: shown.verdict }, { title: shown.margin }],
    rows: verdicts.map((verdict) => verdictRow(limitOf(content.bundle, verdict.limit), verdict, printing)),
    empty: counts ? shown.noLimits : shown.noVerdict(termIn(printing, validity)),
  };
}

function verdictRow(limit: Limit, verdict: Verdict, printing: Printing): Cell[] {
  const { shown } = MESSAGES[printing.language];
  const asked = inOtherUnits(limit, printing);
  return [
    {
      text: `${nameOfLimit(limit, printing.language)}: ${limit.title}`,
      under: `${limit.source} ${limit.edition}; ${shown.inForce(limit.inForceFrom)}`,
    },
    {
      text:
        asked === '' ? rangeInWords(limit, printing.language) : `${rangeInWords(limit, printing.language)} (${asked})`,
      under: `${ruleInWords(limit, printing.language)}: ${formulaOf(limit, printing)}`,
    },
    { text: termIn(printing, verdict.outcome), sign: verdict.outcome, under: printing.told(verdict.because ?? '') },
    marginOf(verdict, printing),
  ];
}

function marginOf({ margin, unit, value, limitValue, uncertainty }: Verdict, printing: Printing): string {
  const limit = limitValue.lower ?? limitValue.upper;
  if (margin === undefined || limit === undefined || !value || value.kind === 'between') return '–';
  return both(
    marginInWords(
      margin,
      {
        unit,
        value: value.value,
        limit,
        ...(uncertainty ? { uncertainty: uncertainty.expanded } : {}),
      },
      printing,
    ),
  );
}
