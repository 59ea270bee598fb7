import { counted } from '@breakbook/acceptance';
import {
  ILAC_WORDS,
  isNotEvaluated,
  type Limit,
  limitName,
  type Method,
  probabilityInWords,
  type Reading,
  type Result,
  type Verdict,
} from '@breakbook/lab';
import { GIVEN_MARKS, GIVEN_WORDS, giverOf, giversOf } from '../../content/given-by.js';
import { isValid, type JudgedLine, type JudgedRunOfLine, linesOf, resultOf, runsOf } from '../../content/judged-lot.js';
import { type LotReportContent } from '../../content/lot-report-content.js';
import { type Block, type Cell, type Section, type Table } from '../../parts/blocks.js';
import { marginInWords, measuredInWords, uncertaintyInWords } from '../../words/units.js';

/** Limits that fit beside a result on one page. */
const LIMITS_ABREAST = 3;
const RESULTS_ABREAST = 4;

/** Each specimen's result with its uncertainty, and the verdict on each limit it is covered by. */
export function resultsSection(content: LotReportContent): Section {
  return {
    heading: 'What did each specimen show, and does it conform?',
    blocks: [
      ...linesOf(content).flatMap((line) => lineBlocks(content, line)),
      ...giversOf(content.bundle.runs).map(
        (giver): Block => ({ block: 'paragraph', text: `${GIVEN_MARKS[giver]} ${GIVEN_WORDS[giver]}.` }),
      ),
      {
        block: 'paragraph',
        tone: 'note',
        text: 'A verdict covers the one result in its row and the one limit named above it; the words of ILAC-G8:09/2019 the distance of the result from the limit, the zone in which it lies and P, the probability that the specimen itself conforms by the measurement alone (JCGM 106:2012, 7), stand below. "At least" is printed where the part was not broken at the value: it held that much. Results of invalid runs and of runs not decided are not printed; the runs are listed further on.',
      },
    ],
  };
}

function lineBlocks(content: LotReportContent, line: JudgedLine): Block[] {
  const runs = runsOf(content, line).filter(isValid);
  const measured = line.limits.filter(({ bound }) => bound !== 'absent');
  const judgedNames = [...new Set([line.line.characteristic, ...measured.map(({ characteristic }) => characteristic)])];
  const others = line.method.characteristics
    .map(({ characteristic }) => characteristic)
    .filter((one) => !judgedNames.includes(one));
  return [
    ...judgedNames.flatMap((name) => resultTables(content, line, runs, name)),
    ...signsTables(line, runs),
    ...chunks(others, RESULTS_ABREAST).map((names) => otherResults(line, runs, names)),
    ...passageTables(content, line, runs),
    ...modesSeen(line, runs),
  ];
}

function resultTables(
  { readings }: LotReportContent,
  { line, method, limits }: JudgedLine,
  runs: readonly JudgedRunOfLine[],
  name: string,
): Table[] {
  const own = limits.filter(({ bound, characteristic }) => bound !== 'absent' && characteristic === name);
  const reference = runs.map((one) => resultOf(one, name)?.reference).find((one) => one !== undefined);
  const title = `${titleOf(method, name)}${reference === undefined ? '' : ` (${reference})`}, plan line ${line.line}`;
  return (own.length === 0 ? [[]] : chunks(own, LIMITS_ABREAST)).map((shown) => ({
    block: 'table',
    title,
    columns: [
      { title: 'Specimen' },
      { title: 'Result', align: 'number' },
      { title: 'Expanded uncertainty', align: 'number' },
      { title: 'Why it is known so' },
      ...shown.map((limit) => ({ title: limitName(limit) })),
    ],
    rows: runs.map((one) => [
      { text: markedSpecimen(one, name), under: `run ${one.run.run}` },
      ...resultCells(resultOf(one, name), own, one, cautionOf(readings, one.run.run, name)),
      ...shown.map((limit) => verdictCell(one, limit)),
    ]),
    empty: 'no valid run',
  }));
}

/** Signs that must be absent: what was found of each specimen, and in place of an uncertainty how it was looked for. */
function signsTables({ line, limits }: JudgedLine, runs: readonly JudgedRunOfLine[]): Block[] {
  const own = limits.filter((limit) => limit.bound === 'absent');
  return chunks(own, LIMITS_ABREAST).flatMap((shown): Block[] => [
    {
      block: 'table',
      title: `Signs that must be absent, plan line ${line.line}`,
      columns: [{ title: 'Specimen' }, ...shown.map((limit) => ({ title: limitName(limit) }))],
      rows: runs.map((one) => [
        { text: one.run.specimen, under: `run ${one.run.run}` },
        ...shown.map((limit) => verdictCell(one, limit)),
      ]),
      empty: 'no valid run',
    },
    {
      block: 'list',
      items: shown.map(
        (limit) =>
          `${limitName(limit)}: none of ${limit.signs.join(', ')}; looked for ${limit.inspection.method}, which finds ${limit.inspection.detects.replace(/\.\s*$/, '')}.`,
      ),
    },
  ]);
}

/** A specimen, with the mark of a value that somebody else gave. */
function markedSpecimen({ run }: JudgedRunOfLine, name: string): string {
  const giver = giverOf(run, name);
  return giver === undefined ? run.specimen : `${run.specimen} ${GIVEN_MARKS[giver]}`;
}

function resultCells(
  result: Result | undefined,
  limits: readonly Limit[],
  { judgement }: JudgedRunOfLine,
  caution: string | undefined,
): Cell[] {
  if (!result) return ['none', '', 'the run does not give it'];
  const { value, unit, uncertainty, because, mode } = result;
  const said = (text: string | undefined) => text !== undefined && because.includes(text);
  const under = [said(mode) ? undefined : mode, said(caution) ? undefined : caution];
  const why = { text: because, under: under.filter((one) => one !== undefined).join('; ') };
  if (isNotEvaluated(value))
    return [
      'not evaluated',
      '',
      { text: value.notEvaluated.because, under: `possible if ${value.notEvaluated.possibleIf}` },
    ];
  const beside = judgement.verdicts
    .filter((verdict) => limits.some((limit) => limit.limit === verdict.limit.limit))
    .flatMap(({ limitValue, acceptance }) => [limitValue.lower, limitValue.upper, acceptance.lower, acceptance.upper])
    .filter((one) => one !== undefined);
  const [first, second] = measuredInWords({
    value,
    unit,
    limits: beside,
    ...(uncertainty ? { uncertainty: uncertainty.expanded } : {}),
  });
  const [u, uSecond] = uncertainty ? uncertaintyInWords(uncertainty.expanded, unit) : ['none stated', ''];
  return [
    { text: first, under: second },
    { text: u, under: uncertainty ? `k = ${uncertainty.k}${uSecond === '' ? '' : `; ${uSecond}`}` : '' },
    why,
  ];
}

/** What must stand beside a value wherever it is shown. */
function cautionOf(readings: readonly Reading[], run: string, name: string): string | undefined {
  return readings.find((one) => one.run === run)?.characteristics.find(({ characteristic }) => characteristic === name)
    ?.caution;
}

function verdictCell({ judgement }: JudgedRunOfLine, limit: Limit): Cell {
  const verdict = judgement.verdicts.find(
    (one) => one.limit.limit === limit.limit && one.limit.revision === limit.revision,
  );
  if (!verdict) return { text: 'not evaluated', sign: 'not evaluated', under: 'no verdict was given' };
  const { outcome } = verdict;
  const told = [
    outcome === ILAC_WORDS[outcome] ? '' : ILAC_WORDS[outcome],
    ...(verdict.inspection ? foundOf(verdict) : [marginOf(verdict), ...shortlyBeside(verdict)]),
    verdict.because ?? '',
  ];
  return { text: outcome, sign: outcome, under: told.filter((one) => one !== '').join('; ') };
}

function foundOf({ value }: Verdict): string[] {
  if (value?.kind !== 'exact') return [];
  return [value.value === 0 ? 'none found' : `${counted(value.value, 'sign')} found`];
}

/** Zone and probability in a cell; what they are is said in the note below the tables. */
function shortlyBeside({ zone, probabilityOfConformance: chance }: Verdict): string[] {
  return [
    ...(zone === undefined ? [] : [zone]),
    ...(chance === undefined || isNotEvaluated(chance) ? [] : [`P ${probabilityInWords(chance)}`]),
  ];
}

function marginOf({ margin, unit, value, limitValue, uncertainty }: Verdict): string {
  const limit = limitValue.lower ?? limitValue.upper;
  if (margin === undefined || limit === undefined || !value || value.kind === 'between') return '';
  return marginInWords(margin, {
    unit,
    value: value.value,
    limit,
    ...(uncertainty ? { uncertainty: uncertainty.expanded } : {}),
  })[0];
}

/** Further characteristics of the method, on which no limit of the plan bears. */
function otherResults({ method, line }: JudgedLine, runs: readonly JudgedRunOfLine[], names: readonly string[]): Table {
  const titles = names.map((name) => titleOf(method, name));
  return {
    block: 'table',
    title: `Further results, plan line ${line.line}: no limit of the plan bears on them`,
    columns: [{ title: 'Specimen' }, ...titles.map((title) => ({ title, align: 'number' as const }))],
    rows: runs.map((one) => [one.run.specimen, ...names.map((name) => furtherCell(resultOf(one, name)))]),
    empty: 'no valid run',
  };
}

/** What each strike, stage or step gave by itself, where a run has several: the run's own value stands for all of them. */
function passageTables(
  { readings }: LotReportContent,
  { line, method }: JudgedLine,
  runs: readonly JudgedRunOfLine[],
): Table[] {
  const passages = runs.flatMap(({ run }) =>
    (readings.find((one) => one.run === run.run)?.passages ?? []).map((passage) => ({ run, passage })),
  );
  const given = method.characteristics.filter(({ characteristic: name }) =>
    passages.some(({ passage }) => passage.characteristics.some(({ characteristic }) => characteristic === name)),
  );
  return chunks(given, RESULTS_ABREAST - 1).map((shown) => ({
    block: 'table',
    title: `Each passage by itself, plan line ${line.line}`,
    columns: [
      { title: 'Specimen' },
      { title: 'Passage' },
      ...shown.map(({ title }) => ({ title, align: 'number' as const })),
    ],
    rows: passages.map(({ run, passage }) => [
      { text: run.specimen, under: `run ${run.run}` },
      { text: `${passage.passage}`, under: passage.title },
      ...shown.map(({ characteristic: name }) =>
        furtherCell(passage.characteristics.find(({ characteristic }) => characteristic === name)),
      ),
    ]),
    empty: 'none',
  }));
}

function furtherCell(result: Pick<Result, 'value' | 'unit' | 'uncertainty'> | undefined): Cell {
  if (!result) return 'none';
  const { value, unit, uncertainty } = result;
  if (isNotEvaluated(value)) return { text: 'not evaluated', under: value.notEvaluated.because };
  const [first, second] = measuredInWords({
    value,
    unit,
    ...(uncertainty ? { uncertainty: uncertainty.expanded } : {}),
  });
  const [u] = uncertainty ? uncertaintyInWords(uncertainty.expanded, unit) : ['none stated'];
  return {
    text: first,
    under: [second, `U ${uncertainty ? `= ${u} (k = ${uncertainty.k})` : u}`].filter((one) => one !== '').join('; '),
  };
}

function modesSeen({ method }: JudgedLine, runs: readonly JudgedRunOfLine[]): Block[] {
  const codes = new Set(runs.flatMap(({ run }) => run.examination?.modes.map(({ code }) => code) ?? []));
  const modes = method.failureModes.filter(({ code }) => codes.has(code));
  if (modes.length === 0) return [];
  return [
    {
      block: 'table',
      title: 'Failure modes seen',
      columns: [{ title: 'Code' }, { title: 'Meaning' }, { title: 'Counts as' }, { title: 'Seen' }],
      rows: modes.map(({ code, meaning, countsAs }) => [
        code,
        meaning,
        Object.entries(countsAs)
          .map(([name, as]) => `${as} of ${titleOf(method, name).toLowerCase()}`)
          .join('; '),
        counted(runs.filter(({ run }) => run.examination?.modes.some((mode) => mode.code === code)).length, 'specimen'),
      ]),
      empty: 'none',
    },
  ];
}

function titleOf({ characteristics }: Method, name: string): string {
  return characteristics.find(({ characteristic }) => characteristic === name)?.title ?? name;
}

function chunks<T>(items: readonly T[], size: number): T[][] {
  return Array.from({ length: Math.ceil(items.length / size) }, (_, index) =>
    items.slice(index * size, (index + 1) * size),
  );
}
