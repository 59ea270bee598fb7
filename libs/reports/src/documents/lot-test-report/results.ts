import { nameOfLimit } from '@breakbook/acceptance';
import {
  ILAC_WORDS,
  isNotEvaluated,
  type Limit,
  type Method,
  probabilityInWords,
  type Reading,
  type Result,
  type Verdict,
} from '@breakbook/lab';
import { GIVEN_MARKS, GIVEN_WORDS, giverOf, giversOf } from '../../content/given-by.js';
import { isValid, type JudgedLine, type JudgedRunOfLine, linesOf, resultOf, runsOf } from '../../content/judged-lot.js';
import type { LotReportContent } from '../../content/lot-report-content.js';
import type { Block, Cell, Section, Table } from '../../parts/blocks.js';
import { type Printing, printingOf } from '../../words/printing.js';
import { marginInWords, measuredInWords, uncertaintyInWords } from '../../words/units.js';

/** Limits that fit beside a result on one page. */
const LIMITS_ABREAST = 3;
const RESULTS_ABREAST = 4;

/** Each specimen's result with its uncertainty, and the verdict on each limit it is covered by. */
export function resultsSection(content: LotReportContent): Section {
  const { say } = printingOf(content);
  return {
    heading: say('What did each specimen show, and does it conform?'),
    blocks: [
      ...linesOf(content).flatMap((line) => lineBlocks(content, line)),
      ...giversOf(content.bundle.runs).map(
        (giver): Block => ({ block: 'paragraph', text: `${GIVEN_MARKS[giver]} ${say(GIVEN_WORDS[giver])}.` }),
      ),
      {
        block: 'paragraph',
        tone: 'note',
        text: say(
          'A verdict covers the one result in its row and the one limit named above it; the words of ILAC-G8:09/2019 the distance of the result from the limit, the zone in which it lies and P, the probability that the specimen itself conforms by the measurement alone (JCGM 106:2012, 7), stand below. "At least" is printed where the part was not broken at the value: it held that much. Results of invalid runs and of runs not decided are not printed; the runs are listed further on.',
        ),
      },
    ],
  };
}

function lineBlocks(content: LotReportContent, line: JudgedLine): Block[] {
  const printing = printingOf(content);
  const runs = runsOf(content, line).filter(isValid);
  const measured = line.limits.filter(({ bound }) => bound !== 'absent');
  const judgedNames = [...new Set([line.line.characteristic, ...measured.map(({ characteristic }) => characteristic)])];
  const others = line.method.characteristics
    .map(({ characteristic }) => characteristic)
    .filter((one) => !judgedNames.includes(one));
  return [
    ...judgedNames.flatMap((name) => resultTables(content, line, runs, name, printing)),
    ...signsTables(line, runs, printing),
    ...chunks(others, RESULTS_ABREAST).map((names) => otherResults(line, runs, names, printing)),
    ...passageTables(content, line, runs, printing),
    ...modesSeen(line, runs, printing),
  ];
}

function resultTables(
  { readings }: LotReportContent,
  { line, method, limits }: JudgedLine,
  runs: readonly JudgedRunOfLine[],
  name: string,
  printing: Printing,
): Table[] {
  const { say, language } = printing;
  const own = limits.filter(({ bound, characteristic }) => bound !== 'absent' && characteristic === name);
  const reference = runs.map((one) => resultOf(one, name)?.reference).find((one) => one !== undefined);
  const title = say('{title}, plan line {line}', {
    title: `${titleOf(method, name)}${reference === undefined ? '' : ` (${say(reference)})`}`,
    line: line.line,
  });
  return (own.length === 0 ? [[]] : chunks(own, LIMITS_ABREAST)).map((shown) => ({
    block: 'table',
    title,
    columns: [
      { title: say('Specimen') },
      { title: say('Result'), align: 'number' },
      { title: say('Expanded uncertainty'), align: 'number' },
      { title: say('Why it is known so') },
      ...shown.map((limit) => ({ title: nameOfLimit(limit, language) })),
    ],
    rows: runs.map((one) => [
      { text: markedSpecimen(one, name), under: say('run {run}', { run: one.run.run }) },
      ...resultCells(resultOf(one, name), own, one, { caution: cautionOf(readings, one.run.run, name), printing }),
      ...shown.map((limit) => verdictCell(one, limit, printing)),
    ]),
    empty: say('no valid run'),
  }));
}

/** Signs that must be absent: what was found of each specimen, and in place of an uncertainty how it was looked for. */
function signsTables({ line, limits }: JudgedLine, runs: readonly JudgedRunOfLine[], printing: Printing): Block[] {
  const { say, language } = printing;
  const own = limits.filter((limit) => limit.bound === 'absent');
  return chunks(own, LIMITS_ABREAST).flatMap((shown): Block[] => [
    {
      block: 'table',
      title: say('Signs that must be absent, plan line {line}', { line: line.line }),
      columns: [{ title: say('Specimen') }, ...shown.map((limit) => ({ title: nameOfLimit(limit, language) }))],
      rows: runs.map((one) => [
        { text: one.run.specimen, under: say('run {run}', { run: one.run.run }) },
        ...shown.map((limit) => verdictCell(one, limit, printing)),
      ]),
      empty: say('no valid run'),
    },
    {
      block: 'list',
      items: shown.map((limit) =>
        say('{limit}: none of {signs}; looked for {method}, which finds {detects}.', {
          limit: nameOfLimit(limit, language),
          signs: limit.signs.join(', '),
          method: limit.inspection.method,
          detects: limit.inspection.detects.replace(/\.\s*$/, ''),
        }),
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
  { caution, printing }: { caution: string | undefined; printing: Printing },
): Cell[] {
  const { say, told, number } = printing;
  if (!result) return [say('none'), '', say('the run does not give it')];
  const { value, unit, uncertainty, because, mode } = result;
  const said = (text: string | undefined) => text !== undefined && because.includes(text);
  const under = [said(mode) ? undefined : mode, said(caution) ? undefined : caution];
  const why = {
    text: told(because),
    under: under.flatMap((one) => (one === undefined ? [] : [told(one)])).join('; '),
  };
  if (isNotEvaluated(value))
    return [
      say('not evaluated'),
      '',
      {
        text: told(value.notEvaluated.because),
        under: say('possible if {what}', { what: told(value.notEvaluated.possibleIf) }),
      },
    ];
  const beside = judgement.verdicts
    .filter((verdict) => limits.some((limit) => limit.limit === verdict.limit.limit))
    .flatMap(({ limitValue, acceptance }) => [limitValue.lower, limitValue.upper, acceptance.lower, acceptance.upper])
    .filter((one) => one !== undefined);
  const [first, second] = measuredInWords(
    { value, unit, limits: beside, ...(uncertainty ? { uncertainty: uncertainty.expanded } : {}) },
    printing,
  );
  const [u, uSecond] = uncertainty
    ? uncertaintyInWords(uncertainty.expanded, unit, printing)
    : [say('none stated'), ''];
  return [
    { text: first, under: second },
    { text: u, under: uncertainty ? `k = ${number(`${uncertainty.k}`)}${uSecond === '' ? '' : `; ${uSecond}`}` : '' },
    why,
  ];
}

/** What must stand beside a value wherever it is shown. */
function cautionOf(readings: readonly Reading[], run: string, name: string): string | undefined {
  return readings.find((one) => one.run === run)?.characteristics.find(({ characteristic }) => characteristic === name)
    ?.caution;
}

function verdictCell({ judgement }: JudgedRunOfLine, limit: Limit, printing: Printing): Cell {
  const { say, told } = printing;
  const verdict = judgement.verdicts.find(
    (one) => one.limit.limit === limit.limit && one.limit.revision === limit.revision,
  );
  if (!verdict) return { text: say('not evaluated'), sign: 'not evaluated', under: say('no verdict was given') };
  const { outcome } = verdict;
  const beside = [
    outcome === ILAC_WORDS[outcome] ? '' : told(ILAC_WORDS[outcome]),
    ...(verdict.inspection
      ? foundOf(verdict, printing)
      : [marginOf(verdict, printing), ...shortlyBeside(verdict, printing)]),
    told(verdict.because ?? ''),
  ];
  return { text: say(outcome), sign: outcome, under: beside.filter((one) => one !== '').join('; ') };
}

function foundOf({ value }: Verdict, { say, counted }: Printing): string[] {
  if (value?.kind !== 'exact') return [];
  return [value.value === 0 ? say('none found') : say('{signs} found', { signs: counted(value.value, 'sign') })];
}

/** Zone and probability in a cell; what they are is said in the note below the tables. */
function shortlyBeside({ zone, probabilityOfConformance: chance }: Verdict, { say, told }: Printing): string[] {
  return [
    ...(zone === undefined ? [] : [say(zone)]),
    ...(chance === undefined || isNotEvaluated(chance) ? [] : [`P ${told(probabilityInWords(chance))}`]),
  ];
}

function marginOf({ margin, unit, value, limitValue, uncertainty }: Verdict, printing: Printing): string {
  const limit = limitValue.lower ?? limitValue.upper;
  if (margin === undefined || limit === undefined || !value || value.kind === 'between') return '';
  return marginInWords(
    margin,
    { unit, value: value.value, limit, ...(uncertainty ? { uncertainty: uncertainty.expanded } : {}) },
    printing,
  )[0];
}

/** Further characteristics of the method, on which no limit of the plan bears. */
function otherResults(
  { method, line }: JudgedLine,
  runs: readonly JudgedRunOfLine[],
  names: readonly string[],
  printing: Printing,
): Table {
  const { say } = printing;
  const titles = names.map((name) => titleOf(method, name));
  return {
    block: 'table',
    title: say('Further results, plan line {line}: no limit of the plan bears on them', { line: line.line }),
    columns: [{ title: say('Specimen') }, ...titles.map((title) => ({ title, align: 'number' as const }))],
    rows: runs.map((one) => [one.run.specimen, ...names.map((name) => furtherCell(resultOf(one, name), printing))]),
    empty: say('no valid run'),
  };
}

/** What each strike, stage or step gave by itself, where a run has several: the run's own value stands for all of them. */
function passageTables(
  { readings }: LotReportContent,
  { line, method }: JudgedLine,
  runs: readonly JudgedRunOfLine[],
  printing: Printing,
): Table[] {
  const { say, named } = printing;
  const passages = runs.flatMap(({ run }) =>
    (readings.find((one) => one.run === run.run)?.passages ?? []).map((passage) => ({ run, passage })),
  );
  const given = method.characteristics.filter(({ characteristic: name }) =>
    passages.some(({ passage }) => passage.characteristics.some(({ characteristic }) => characteristic === name)),
  );
  return chunks(given, RESULTS_ABREAST - 1).map((shown) => ({
    block: 'table',
    title: say('Each passage by itself, plan line {line}', { line: line.line }),
    columns: [
      { title: say('Specimen') },
      { title: say('Passage') },
      ...shown.map(({ title }) => ({ title, align: 'number' as const })),
    ],
    rows: passages.map(({ run, passage }) => [
      { text: run.specimen, under: say('run {run}', { run: run.run }) },
      { text: `${passage.passage}`, under: named(passage.title) },
      ...shown.map(({ characteristic: name }) =>
        furtherCell(
          passage.characteristics.find(({ characteristic }) => characteristic === name),
          printing,
        ),
      ),
    ]),
    empty: say('none'),
  }));
}

function furtherCell(result: Pick<Result, 'value' | 'unit' | 'uncertainty'> | undefined, printing: Printing): Cell {
  const { say, told, number } = printing;
  if (!result) return say('none');
  const { value, unit, uncertainty } = result;
  if (isNotEvaluated(value)) return { text: say('not evaluated'), under: told(value.notEvaluated.because) };
  const [first, second] = measuredInWords(
    { value, unit, ...(uncertainty ? { uncertainty: uncertainty.expanded } : {}) },
    printing,
  );
  const [u] = uncertainty ? uncertaintyInWords(uncertainty.expanded, unit, printing) : [say('none stated')];
  return {
    text: first,
    under: [second, `U ${uncertainty ? `= ${u} (k = ${number(`${uncertainty.k}`)})` : u}`]
      .filter((one) => one !== '')
      .join('; '),
  };
}

function modesSeen(
  { method }: JudgedLine,
  runs: readonly JudgedRunOfLine[],
  { say, counted, language }: Printing,
): Block[] {
  const codes = new Set(runs.flatMap(({ run }) => run.examination?.modes.map(({ code }) => code) ?? []));
  const modes = method.failureModes.filter(({ code }) => codes.has(code));
  if (modes.length === 0) return [];
  return [
    {
      block: 'table',
      title: say('Failure modes seen'),
      columns: [{ title: say('Code') }, { title: say('Meaning') }, { title: say('Counts as') }, { title: say('Seen') }],
      rows: modes.map(({ code, meaning, countsAs }) => [
        code,
        meaning,
        Object.entries(countsAs)
          .map(([name, as]) => {
            const title = titleOf(method, name);
            // German keeps the capital of its nouns.
            return say('{as} of {title}', { as: say(as), title: language === 'en' ? title.toLowerCase() : title });
          })
          .join('; '),
        counted(runs.filter(({ run }) => run.examination?.modes.some((mode) => mode.code === code)).length, 'specimen'),
      ]),
      empty: say('none'),
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
